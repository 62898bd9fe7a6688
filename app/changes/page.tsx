import { openPage, readRights } from '@/app/access/open-page';
import type { SearchParams } from '@/app/ui/preferences';
import { readChangesAddress } from '@/lib/report/changes/changes-address';
import { changesView } from '@/lib/report/changes/changes-view';
import { readChanges } from '@/lib/work/read-changes';
import { ChangesScreen } from './changes-screen';

export const metadata = { title: 'Changes' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const context = await openPage('/changes');
  const query = readChangesAddress(await searchParams);
  const seesPeople = (await readRights()).has('people');
  return <ChangesScreen view={changesView(await readChanges(context, query, { seesPeople }), seesPeople)} />;
}
