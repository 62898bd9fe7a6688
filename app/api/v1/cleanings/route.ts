import { inFormat } from '@/app/api/in-format';
import { readQuery, respond } from '@/app/api/respond';
import { cleaningsQuerySchema } from '@/lib/contract/fleet-cleanings';
import { readCleaningsAddress } from '@/lib/report/cleanings/cleanings-address';
import { cleaningsCsv } from '@/lib/report/cleanings/cleanings-csv';
import { showFleetCleanings } from '@/lib/work/read-fleet-cleanings';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** What the cleanings of a period did, `period` by name or `from` and `to`; `format=csv` as rows. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const address = readCleaningsAddress(readQuery(request, cleaningsQuerySchema));
    const document = await showFleetCleanings(context, address);
    return inFormat(request, document, { name: 'cleanings', csv: cleaningsCsv });
  });
}
