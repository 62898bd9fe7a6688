import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readWorkAddress } from '@/lib/report/work-list/work-address';
import { workView } from '@/lib/report/work-list/work-view';
import { readWorkList } from '@/lib/work/read-work-list';
import { WorkScreen } from './work-screen';

export const metadata = { title: 'Work list' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [records, system] = await Promise.all([
    openPage('/plan/work').then(readWorkList),
    readUnitSystem(given),
  ]);
  return <WorkScreen view={workView(records, readWorkAddress(given), system)} />;
}
