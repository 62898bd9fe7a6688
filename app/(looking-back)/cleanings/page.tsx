import { openPage } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { SiteChoice } from '@/app/ui/site-choice/site-choice';
import { readCleaningsAddress } from '@/lib/report/cleanings/cleanings-address';
import { cleaningsView } from '@/lib/report/cleanings/cleanings-view';
import { readFleetCleanings } from '@/lib/work/read-fleet-cleanings';
import { siteToShow } from '@/lib/work/shown-site';
import { CleaningsScreen } from './cleanings-screen';

export const metadata = { title: 'Cleanings' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const [context, system] = await Promise.all([openPage('/cleanings'), readUnitSystem(given)]);
  const address = readCleaningsAddress(given);
  const shown = await siteToShow(context, address.site ?? null);
  const records = await readFleetCleanings(context, shown.isOneOnly ? shown.site : null);
  return (
    <>
      <SiteChoice shown={shown} given={given} />
      <CleaningsScreen view={cleaningsView(records, address, system)} />
    </>
  );
}
