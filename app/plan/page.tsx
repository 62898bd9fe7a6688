import { readVisitor } from '@/app/access/open-page';
import type { SearchParams } from '@/app/ui/preferences';
import { readPlanAddress } from '@/lib/report/plan/plan-address';
import { planView } from '@/lib/report/plan/plan-view';
import { loadPlanning } from './load-planning';
import { PlanScreen } from './plan-screen';

export const metadata = { title: 'Cleaning plan' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const address = readPlanAddress(await searchParams);
  const planning = await loadPlanning(address.site);
  const person = (await readVisitor())?.actor.name ?? '';
  return <PlanScreen planning={planning} view={planView(planning, address)} person={person} />;
}
