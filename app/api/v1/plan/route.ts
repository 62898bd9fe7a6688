import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { makePlan } from '@/lib/work/make-plan';

/** Makes a cleaning plan; closing the request stops the solver. Nothing is stored. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) =>
    makePlan(context, await readJson(request), { signal: request.signal }),
  );
}
