import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { workSheets } from '@/lib/report/work-list/work-sheets';
import { openContext } from '@/lib/work/context';
import { readWorkList } from '@/lib/work/read-work-list';
import { SheetsScreen } from './sheets-screen';

export const metadata = { title: 'Sheets of the work list' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [records, system] = await Promise.all([
    openContext().then(readWorkList),
    readUnitSystem(await searchParams),
  ]);
  return <SheetsScreen view={workSheets(records, system)} />;
}
