import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { openContext } from '@/lib/work/context';
import { takeFleet } from '@/lib/work/save-unit';
import { showFleet } from '@/lib/work/show-results';

/** Results of every analysed unit, the most urgent first. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async () => showFleet(await openContext()));
}

/** Registers the units of a fleet file, all of them or none. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async () => takeFleet(await openContext(), await readJson(request)));
}
