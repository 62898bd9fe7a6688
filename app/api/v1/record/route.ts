import { inFormat } from '@/app/api/in-format';
import { respond } from '@/app/api/respond';
import { recordCsv } from '@/lib/report/record/record-csv';
import { openContext } from '@/lib/work/context';
import { showRecord } from '@/lib/work/read-record';

/** How past projections of the fleet did; `format=csv` gives every one of them as a row. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async () =>
    inFormat(request, await showRecord(await openContext()), { name: 'past-projections', csv: recordCsv }),
  );
}
