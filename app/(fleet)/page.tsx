import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readFleetAddress } from '@/lib/report/fleet-address';
import { readFleetPage } from '@/lib/work/read-fleet-page';
import { FleetScreen } from './fleet-screen';

export const metadata = { title: 'Fleet' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const asked = readFleetAddress(given);
  const [context, system] = await Promise.all([openPage('/'), readUnitSystem(given)]);
  return <FleetScreen page={await readFleetPage(context, asked, system)} asked={asked} />;
}
