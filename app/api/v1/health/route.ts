import { inFormat } from '@/app/api/in-format';
import { respond } from '@/app/api/respond';
import { healthCsv } from '@/lib/report/health/health-csv';
import { showDataHealth } from '@/lib/work/read-health';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** Data health of every unit, what needs a person first; `format=csv` as rows. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) =>
    inFormat(request, await showDataHealth(context), { name: 'data-health', csv: healthCsv }),
  );
}
