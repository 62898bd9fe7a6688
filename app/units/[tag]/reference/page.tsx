import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readReferenceEntries } from '@/lib/report/reference/reference-entries';
import { referenceView } from '@/lib/report/reference/reference-view';
import { readReference } from '@/lib/work/read-reference';
import { ReferenceScreen } from './reference-screen';

type Props = { params: Promise<{ tag: string }>; searchParams: Promise<SearchParams> };

export default async function Page({ params, searchParams }: Props) {
  const [tag, asked] = [decodeURIComponent((await params).tag), await searchParams];
  const system = await readUnitSystem(asked);
  const records = await readReference(
    await openPage('/units/[tag]/reference'),
    tag,
    readReferenceEntries(asked),
  );
  return records === null ? notFound() : <ReferenceScreen view={referenceView(records, system)} />;
}

export const generateMetadata = async ({ params }: Props) => ({
  title: `Clean reference of ${decodeURIComponent((await params).tag)}`,
});
