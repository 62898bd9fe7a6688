import { notFound } from 'next/navigation';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { parseUnitAddress } from '@/lib/report/unit/unit-address';
import { unitView } from '@/lib/report/unit-view';
import { loadUnit } from './load-unit';
import { UnitScreen } from './unit-screen';

type Props = { params: Promise<{ tag: string }>; searchParams: Promise<SearchParams> };

export default async function Page({ params, searchParams }: Props) {
  const address = parseUnitAddress(decodeURIComponent((await params).tag), await searchParams);
  const [records, system] = await Promise.all([loadUnit(address), readUnitSystem(await searchParams)]);
  return records === null ? notFound() : <UnitScreen view={unitView(records, address, system)} />;
}

export const generateMetadata = async ({ params }: Props) => ({
  title: decodeURIComponent((await params).tag),
});
