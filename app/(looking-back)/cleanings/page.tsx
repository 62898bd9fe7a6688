import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readCleaningsAddress } from '@/lib/report/cleanings/cleanings-address';
import { cleaningsView } from '@/lib/report/cleanings/cleanings-view';
import { readFleetCleanings } from '@/lib/work/read-fleet-cleanings';
import { CleaningsScreen } from './cleanings-screen';

export const metadata = { title: 'Cleanings' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [records, system] = await Promise.all([
    openPage('/cleanings').then(readFleetCleanings),
    readUnitSystem(given),
  ]);
  return <CleaningsScreen view={cleaningsView(records, readCleaningsAddress(given), system)} />;
}
