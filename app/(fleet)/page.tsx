import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readFleetAddress } from '@/lib/report/fleet-address';
import { fleetView } from '@/lib/report/fleet-view';
import { readFleet } from '@/lib/work/read-fleet';
import { FleetScreen } from './fleet-screen';

export const metadata = { title: 'Fleet' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [records, system] = await Promise.all([readFleet(await openPage('/')), readUnitSystem(given)]);
  return <FleetScreen view={fleetView(records, readFleetAddress(given), system)} />;
}
