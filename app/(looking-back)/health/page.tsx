import { openPage } from '@/app/access/open-page';
import type { SearchParams } from '@/app/ui/preferences';
import { SiteChoice } from '@/app/ui/site-choice/site-choice';
import { healthView } from '@/lib/report/health/health-view';
import { readHealth } from '@/lib/work/read-health';
import { siteToShow } from '@/lib/work/shown-site';
import { HealthScreen } from './health-screen';

export const metadata = { title: 'Data health' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [context, given] = await Promise.all([openPage('/health'), searchParams]);
  const { units, site } = given;
  const shown = await siteToShow(context, typeof site === 'string' ? site : null);
  const records = await readHealth(context, shown.isOneOnly ? shown.site : null);
  return (
    <>
      <SiteChoice shown={shown} given={given} />
      <HealthScreen view={healthView(records, typeof units === 'string' ? units : null)} />
    </>
  );
}
