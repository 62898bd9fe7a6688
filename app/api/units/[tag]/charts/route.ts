import { z } from 'zod';
import { readQuery, respond, tagOf } from '@/app/api/respond';
import { AppError } from '@/lib/contract/app-error';
import { UNIT_SYSTEMS, type UnitSystem } from '@/lib/report/format/unit-system';
import { chartsView } from '@/lib/report/unit/charts-view';
import { packCharts } from '@/lib/report/unit/packed-charts';
import { FIGURES, parseUnitAddress } from '@/lib/report/unit/unit-address';
import { readUnitAt } from '@/lib/work/read-unit-at';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

type Segments = { params: Promise<{ tag: string }> };

/** Most columns of pixels that a picture is asked for [-]: two readings of each are sent. */
const MOST_COLUMNS = 2000;

/** How finely to draw; `all`: every row of one figure, for a file of it. */
const querySchema = z.object({
  columns: z.union([z.literal('all'), z.coerce.number().int().min(50).max(MOST_COLUMNS)]).optional(),
  figure: z.enum(FIGURES).optional(),
});

/** For the unit page itself: its charts for the period of an address of it, so that a look closer need not load the page anew. */
export function GET(request: Request, { params }: Segments): Promise<Response> {
  return respond(request, async (context) => {
    const { columns, figure } = readQuery(request, querySchema);
    const asked = Object.fromEntries(new URL(request.url).searchParams);
    const address = parseUnitAddress(tagOf(await params), asked);
    if (columns === 'all' && figure === undefined)
      throw new AppError('invalid-input', 'The request is not valid', [
        { field: 'figure', message: 'every row is sent of one figure at a time: name it' },
      ]);
    const records = await readUnitAt(context, address);
    if (records === null) throw new AppError('not-found', `There is no unit "${address.tag}"`);
    const drawn = columns === 'all' ? Number.POSITIVE_INFINITY : columns;
    return packCharts(chartsView(records, address, systemOf(request), { columns: drawn, figure }));
  });
}

/** The reader's unit system, as the page finds it: the address first, then the cookie, then SI. */
function systemOf(request: Request): UnitSystem {
  const wanted = [
    new URL(request.url).searchParams.get('units'),
    /(?:^|;\s*)units=(\w+)/.exec(request.headers.get('cookie') ?? '')?.[1],
  ];
  return wanted.flatMap((name) => UNIT_SYSTEMS.find((system) => system === name) ?? [])[0] ?? 'si';
}
