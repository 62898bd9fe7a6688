import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { takeFleet } from '@/lib/work/save-unit';
import { showFleet } from '@/lib/work/show-results';

/** Results of every analysed unit, the most urgent first. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => showFleet(context));
}

/** Registers the units of a fleet file, all of them or none. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => takeFleet(context, await readJson(request)));
}
