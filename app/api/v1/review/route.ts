import { readQuery, respond } from '@/app/api/respond';
import { reviewQuerySchema } from '@/lib/contract/review';
import { review } from '@/lib/report/review/review';
import { readReview } from '@/lib/work/read-review';

export { DELETE, PATCH, POST, PUT } from '@/app/api/other-methods';

/** What changed since a day, as the page of the review lists it, in SI units. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async (context) => {
    const query = readQuery(request, reviewQuerySchema);
    return review(await readReview(context, query), 'si');
  });
}
