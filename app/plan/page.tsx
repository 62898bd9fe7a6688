import { PERSON_COOKIE, readPerson } from '@/app/review/person';
import type { SearchParams } from '@/app/ui/preferences';
import { readPlanAddress } from '@/lib/report/plan/plan-address';
import { planView } from '@/lib/report/plan/plan-view';
import { loadPlanning } from './load-planning';
import { PlanScreen } from './plan-screen';

export const metadata = { title: 'Cleaning plan' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const address = readPlanAddress(await searchParams);
  const [planning, name] = await Promise.all([loadPlanning(address.site), readPerson()]);
  const person = { name, cookie: PERSON_COOKIE };
  return <PlanScreen planning={planning} view={planView(planning, address)} person={person} />;
}
