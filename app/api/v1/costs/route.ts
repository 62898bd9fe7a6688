import { inFormat } from '@/app/api/in-format';
import { readQuery, respond } from '@/app/api/respond';
import { costsQuerySchema } from '@/lib/contract/costs';
import { costsCsv } from '@/lib/report/energy/costs-csv';
import { readEnergyAddress } from '@/lib/report/energy/energy-address';
import { showCosts } from '@/lib/work/read-costs';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** What fouling costs in a period, `period` by name or `from` and `to`, of all sites or one; `format=csv` as rows. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const address = readEnergyAddress(readQuery(request, costsQuerySchema));
    const document = await showCosts(context, address);
    return inFormat(request, document, { name: 'costs', csv: costsCsv });
  });
}
