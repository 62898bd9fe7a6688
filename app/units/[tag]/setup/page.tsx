import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { setupView } from '@/lib/report/setup/setup-records';
import { readSetup } from '@/lib/work/read-setup';
import { EditUnitScreen } from './edit-unit-screen';

type Props = { params: Promise<{ tag: string }>; searchParams: Promise<SearchParams> };

export default async function Page({ params, searchParams }: Props) {
  const tag = decodeURIComponent((await params).tag);
  const [records, system] = await Promise.all([
    readSetup(await openPage('/units/[tag]/setup'), tag),
    readUnitSystem(await searchParams),
  ]);
  return records === null ? notFound() : <EditUnitScreen view={setupView(records, system)} />;
}

export const generateMetadata = async ({ params }: Props) => ({
  title: `Datasheet of ${decodeURIComponent((await params).tag)}`,
});
