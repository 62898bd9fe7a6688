import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { listRegistered } from '@/lib/work/list-registered';
import { FleetSheetScreen } from './fleet-sheet-screen';

export const metadata = { title: 'Units by spreadsheet' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [{ units }, system] = await Promise.all([
    openPage('/fleet-sheet').then(listRegistered),
    readUnitSystem(await searchParams),
  ]);
  return <FleetSheetScreen unitCount={units.length} system={system} />;
}
