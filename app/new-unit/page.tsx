import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { setupView } from '@/lib/report/setup/setup-records';
import { readSetup } from '@/lib/work/read-setup';
import { NewUnitScreen } from './new-unit-screen';

export const metadata = { title: 'Add a unit' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [records, system] = await Promise.all([
    openPage('/new-unit').then((context) => readSetup(context, null)),
    readUnitSystem(await searchParams),
  ]);
  return <NewUnitScreen view={setupView(records!, system)} />;
}
