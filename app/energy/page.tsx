import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import { energyView } from '@/lib/report/energy/energy-view';
import { readCosts } from '@/lib/work/read-costs';
import { siteToShow } from '@/lib/work/shown-site';
import { EnergyScreen } from './energy-screen';
import { orNotFound } from './or-not-found';

export const metadata = { title: 'Energy and money' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [context, system] = await Promise.all([openPage('/energy'), readUnitSystem(given)]);
  const asked = readEnergyAddress(given);
  const { site, isOneOnly } = await siteToShow(context, asked.site);
  const records = await readCosts(context, site);
  const view = orNotFound(() => energyView(records, { ...asked, site }, system));
  return <EnergyScreen view={view} isOneSiteOnly={isOneOnly} />;
}
