import { readJson } from '@/app/api/body';
import { respond } from '@/app/api/respond';
import { evaluate } from '@/lib/work/evaluate';

/** Evaluates `{ unit, readings }` without storing anything: one evaluated reading each, in the order given. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async () => evaluate(await readJson(request)));
}
