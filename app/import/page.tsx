import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readImportAddress } from '@/lib/report/import/import-address';
import { importView } from '@/lib/report/import/import-view';
import { intakeView } from '@/lib/report/import/intake-view';
import { readImports } from '@/lib/work/read-imports';
import { readIntake } from '@/lib/work/read-intake';
import { ImportScreen } from './import-screen';

export const metadata = { title: 'Import readings' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const address = readImportAddress(await searchParams);
  const context = await openPage('/import');
  const [records, intake, system] = await Promise.all([
    readImports(context, address),
    readIntake(context),
    readUnitSystem(await searchParams),
  ]);
  return <ImportScreen view={importView(records, address, system)} intake={intakeView(intake, records)} />;
}
