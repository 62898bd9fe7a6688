import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { takeExpensive } from '@/lib/auth/limits';
import { evaluate } from '@/lib/work/evaluate';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Evaluates `{ unit, readings }` without storing anything: one evaluated reading each, in the order given. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async ({ actor }) => {
    takeExpensive(actor);
    return evaluate(await readJson(request));
  });
}
