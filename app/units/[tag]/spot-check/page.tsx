import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { spotCheckView } from '@/lib/report/spot-check/spot-check-view';
import { spotCheck } from '@/lib/work/spot-check';
import { SpotCheckScreen } from './spot-check-screen';

type Props = { params: Promise<{ tag: string }>; searchParams: Promise<SearchParams> };

export default async function Page({ params, searchParams }: Props) {
  const [tag, asked] = [decodeURIComponent((await params).tag), await searchParams];
  const system = await readUnitSystem(asked);
  const records = await spotCheck(await openPage('/units/[tag]/spot-check'), tag, { params: asked, system });
  return records === null ? notFound() : <SpotCheckScreen view={spotCheckView(records, system)} />;
}

export const generateMetadata = async ({ params }: Props) => ({
  title: `Spot check of ${decodeURIComponent((await params).tag)}`,
});
