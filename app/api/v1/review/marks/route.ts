import { readJson } from '@/app/api/body';
import { parse, respond } from '@/app/api/respond';
import { markRequestSchema } from '@/lib/contract/review';
import { markReviewLine } from '@/lib/work/mark-review-line';

export { DELETE, GET, PATCH, PUT } from '@/app/api/other-methods';

/** Marks a line of the review: a note, who takes it on, that it was seen. */
export function POST(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const mark = parse(await readJson(request), markRequestSchema);
    return markReviewLine(context, mark);
  });
}
