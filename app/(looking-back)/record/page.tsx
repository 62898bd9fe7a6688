import { openPage } from '@/app/access/open-page';
import type { SearchParams } from '@/app/ui/preferences';
import { readRecordAddress } from '@/lib/report/record/record-address';
import { recordView } from '@/lib/report/record/record-view';
import { readRecord } from '@/lib/work/read-record';
import { RecordScreen } from './record-screen';

export const metadata = { title: 'Past projections' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const [records, given] = await Promise.all([openPage('/record').then(readRecord), searchParams]);
  return <RecordScreen view={recordView(records, readRecordAddress(given))} />;
}
