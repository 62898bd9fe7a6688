import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import { monthView } from '@/lib/report/energy/month-view';
import { readCosts } from '@/lib/work/read-costs';
import { siteToShow } from '@/lib/work/shown-site';
import { EnergyEmpty } from '../energy-empty';
import { orNotFound } from '../or-not-found';
import { MonthSheet } from './month-sheet';

export const metadata = { title: 'What fouling cost in a month' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [context, system] = await Promise.all([openPage('/energy/month'), readUnitSystem(given)]);
  const address = readEnergyAddress(given);
  const { site } = await siteToShow(context, address.site);
  const records = await readCosts(context, site);
  const asked = { month: [given.month].flat()[0] ?? null, address: { ...address, site } };
  const view = orNotFound(() => monthView(records, asked, system));
  return view.hasResults ? <MonthSheet view={view} /> : <EnergyEmpty hasUnits={records.units.length > 0} />;
}
