import { inFormat } from '@/app/api/in-format';
import { respond } from '@/app/api/respond';
import { healthCsv } from '@/lib/report/health/health-csv';
import { openContext } from '@/lib/work/context';
import { showDataHealth } from '@/lib/work/read-health';

/** Data health of every unit, what needs a person first; `format=csv` as rows. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async () =>
    inFormat(request, await showDataHealth(await openContext()), { name: 'data-health', csv: healthCsv }),
  );
}
