import { openPage } from '@/app/access/open-page';
import type { SearchParams } from '@/app/ui/preferences';
import { healthView } from '@/lib/report/health/health-view';
import { readHealth } from '@/lib/work/read-health';
import { HealthScreen } from './health-screen';

export const metadata = { title: 'Data health' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [records, { units }] = await Promise.all([openPage('/health').then(readHealth), searchParams]);
  return <HealthScreen view={healthView(records, typeof units === 'string' ? units : null)} />;
}
