import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { openContext } from '@/lib/work/context';
import { makePlan } from '@/lib/work/make-plan';

/** Makes a cleaning plan; closing the request stops the solver. Nothing is stored. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async () =>
    makePlan(await openContext(), await readJson(request), { signal: request.signal }),
  );
}
