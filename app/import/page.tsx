import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readImportAddress } from '@/lib/report/import/import-address';
import { importView } from '@/lib/report/import/import-view';
import { readImports } from '@/lib/work/read-imports';
import { ImportScreen } from './import-screen';

export const metadata = { title: 'Import readings' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const address = readImportAddress(await searchParams);
  const [records, system] = await Promise.all([
    openPage('/import').then((context) => readImports(context, address)),
    readUnitSystem(await searchParams),
  ]);
  return <ImportScreen view={importView(records, address, system)} />;
}
