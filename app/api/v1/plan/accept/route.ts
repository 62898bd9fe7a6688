import { readJson } from '@/app/api/body';
import { parse, respond } from '@/app/api/respond';
import { planAcceptanceSchema } from '@/lib/contract/planned';
import { takePlan } from '@/lib/work/take-plan';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Takes a schedule on as dated work; one that breaks constraints only with `acceptClashes`. Answers with the work list. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const acceptance = parse(await readJson(request), planAcceptanceSchema);
    return takePlan(context, acceptance);
  });
}
