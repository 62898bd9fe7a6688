import { z } from 'zod';
import { parse, respond } from '@/app/api/respond';
import { readFleetAddress } from '@/lib/report/fleet-address';
import { UNIT_SYSTEMS } from '@/lib/report/format/unit-system';
import type { Context } from '@/lib/work/context';
import { fleetCsvPieces, readFleetWindow } from '@/lib/work/read-fleet-page';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** At most so many items of the list at once. */
const MOST_ITEMS = 120;

const askedSchema = z.object({
  items: z.coerce.number().int().min(1).max(MOST_ITEMS).default(30),
  format: z.enum(['json', 'csv']).default('json'),
  units: z.enum(UNIT_SYSTEMS).catch('si'),
});

/** Rows of the fleet page while it is scrolled: those of its address from a place on; with `format=csv` all of them as a file. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const given = Object.fromEntries(new URL(request.url).searchParams);
    const { items, format, units } = parse(given, askedSchema);
    const address = readFleetAddress(given);
    if (format === 'csv') return asFile(context, fleetCsvPieces(context, address, units));
    const headers = { 'Content-Type': 'application/json', 'Cache-Control': 'no-store' };
    return new Response(await readFleetWindow(context, address, items), { headers });
  });
}

function asFile(context: Context, pieces: AsyncGenerator<string>): Response {
  const encoder = new TextEncoder();
  const day = new Date(context.now()).toISOString().slice(0, 10);
  const body = new ReadableStream({
    async pull(controller) {
      const { done, value } = await pieces.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
  });
  return new Response(body, {
    headers: {
      'Cache-Control': 'no-store',
      'Content-Type': 'text/csv; charset=utf-8',
      'Content-Disposition': `attachment; filename="cleanby-fleet-${day}.csv"`,
    },
  });
}
