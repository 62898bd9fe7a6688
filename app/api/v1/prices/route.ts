import { readJson } from '@/app/api/body';
import { parse, respond } from '@/app/api/respond';
import { priceRequestSchema } from '@/lib/contract/prices';
import { showPrices } from '@/lib/work/read-prices';
import { takePrice } from '@/lib/work/record-price';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

/** What supplies cost and emit, by day, and which units use them. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => showPrices(context));
}

/** Records a price or a factor from a day on, or takes one back, and answers with all of them. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const price = parse(await readJson(request), priceRequestSchema);
    return takePrice(context, price);
  });
}
