import { inFormat } from '@/app/api/in-format';
import { respond } from '@/app/api/respond';
import { recordCsv } from '@/lib/report/record/record-csv';
import { showRecord } from '@/lib/work/read-record';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** How past projections of the fleet did; `format=csv` gives every one of them as a row. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) =>
    inFormat(request, await showRecord(context), { name: 'past-projections', csv: recordCsv }),
  );
}
