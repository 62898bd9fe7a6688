import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { mappingView } from '@/lib/report/import/mapping-view';
import { readMapping } from '@/lib/work/read-mapping';
import { MappingScreen } from './mapping-screen';

export const metadata = { title: 'Saved mapping' };

type Props = { params: Promise<{ name: string }>; searchParams: Promise<SearchParams> };

export default async function Page({ params, searchParams }: Props) {
  const context = await openPage('/import/mappings/[name]');
  const records = await readMapping(context, decodeURIComponent((await params).name));
  if (records === null) return notFound();
  return <MappingScreen view={mappingView(records)} system={await readUnitSystem(await searchParams)} />;
}
