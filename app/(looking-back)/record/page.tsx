import { openPage } from '@/app/access/open-page';
import type { SearchParams } from '@/app/ui/preferences';
import { SiteChoice } from '@/app/ui/site-choice/site-choice';
import { readRecordAddress } from '@/lib/report/record/record-address';
import { recordView } from '@/lib/report/record/record-view';
import { readRecord } from '@/lib/work/read-record';
import { siteToShow } from '@/lib/work/shown-site';
import { RecordScreen } from './record-screen';

export const metadata = { title: 'Past projections' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [context, given] = await Promise.all([openPage('/record'), searchParams]);
  const address = readRecordAddress(given);
  const shown = await siteToShow(context, address.site ?? null);
  const records = await readRecord(context, shown.isOneOnly ? shown.site : null);
  return (
    <>
      <SiteChoice shown={shown} given={given} />
      <RecordScreen view={recordView(records, address)} />
    </>
  );
}
