import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readCleaningsAddress } from '@/lib/report/cleanings/cleanings-address';
import { cleaningsView } from '@/lib/report/cleanings/cleanings-view';
import { openContext } from '@/lib/work/context';
import { readFleetCleanings } from '@/lib/work/read-fleet-cleanings';
import { CleaningsScreen } from './cleanings-screen';

export const metadata = { title: 'Cleanings' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [records, system] = await Promise.all([
    openContext().then(readFleetCleanings),
    readUnitSystem(given),
  ]);
  return <CleaningsScreen view={cleaningsView(records, readCleaningsAddress(given), system)} />;
}
