import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import { energyView } from '@/lib/report/energy/energy-view';
import { readCosts } from '@/lib/work/read-costs';
import { EnergyScreen } from './energy-screen';
import { orNotFound } from './or-not-found';

export const metadata = { title: 'Energy and money' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [records, system] = await Promise.all([openPage('/energy').then(readCosts), readUnitSystem(given)]);
  return <EnergyScreen view={orNotFound(() => energyView(records, readEnergyAddress(given), system))} />;
}
