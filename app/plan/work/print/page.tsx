import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { workSheets } from '@/lib/report/work-list/work-sheets';
import { readWorkList } from '@/lib/work/read-work-list';
import { SheetsScreen } from './sheets-screen';

export const metadata = { title: 'Sheets of the work list' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [records, system] = await Promise.all([
    openPage('/plan/work/print').then(readWorkList),
    readUnitSystem(await searchParams),
  ]);
  return <SheetsScreen view={workSheets(records, system)} />;
}
