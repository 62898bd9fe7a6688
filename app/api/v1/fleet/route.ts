import { readQuery, respond } from '@/app/api/respond';
import { AppError } from '@/lib/contract/app-error';
import { fleetQuerySchema, fleetSendingSchema } from '@/lib/contract/fleet-sheet/answer';
import { checkFleetSheet } from '@/lib/work/check-fleet-sheet';
import { makeFleetSheet } from '@/lib/work/fleet-sheet';
import { takeFleet } from '@/lib/work/save-unit';
import { showFleet } from '@/lib/work/show-results';
import { takeFleetSheet } from '@/lib/work/take-fleet-sheet';
import { readFleetBody } from './fleet-body';

export { DELETE, PATCH, PUT } from '@/app/api/other-methods';

/** Results of every analysed unit, the most urgent first; with `format=xlsx` the workbook that units are described in. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const { format, with: content = 'units', measures = 'si' } = readQuery(request, fleetQuerySchema);
    if (format !== 'xlsx') return showFleet(context);
    const workbook = await makeFleetSheet(context, { withUnits: content === 'units', system: measures });
    return asFile(workbook, content === 'units' ? 'cleanby-fleet.xlsx' : 'cleanby-fleet-template.xlsx');
  });
}

function asFile(workbook: Uint8Array<ArrayBuffer>, name: string): Response {
  return new Response(workbook, {
    headers: {
      'Cache-Control': 'no-store',
      'Content-Type': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
      'Content-Disposition': `attachment; filename="${name}"`,
    },
  });
}

/** Registers the units of a fleet file or of a fleet sheet (XLSX or CSV), all of them or none; `check=1` only looks at a sheet. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const isCheck = readQuery(request, fleetSendingSchema).check !== undefined;
    const { document, sheet } = await readFleetBody(request);
    if (sheet !== null)
      return isCheck ? (await checkFleetSheet(context, sheet)).check : takeFleetSheet(context, sheet);
    return isCheck ? refuseCheck() : takeFleet(context, document);
  });
}

function refuseCheck(): never {
  throw new AppError('invalid-input', 'A fleet file as JSON is not checked here', [
    {
      field: 'check',
      message: 'send a sheet (XLSX or CSV), or check single units by POST /api/v1/units?check=1',
    },
  ]);
}
