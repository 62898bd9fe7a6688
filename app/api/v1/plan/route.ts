import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { takeExpensive } from '@/lib/auth/limits';
import { makePlan } from '@/lib/work/make-plan';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Makes a cleaning plan; closing the request stops the solver. Nothing is stored. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    takeExpensive(context.actor);
    return makePlan(context, await readJson(request), { signal: request.signal });
  });
}
