import { readQuery, respond } from '@/app/api/respond';
import { reviewQuerySchema } from '@/lib/contract/review';
import { review } from '@/lib/report/review/review';
import { openContext } from '@/lib/work/context';
import { readReview } from '@/lib/work/read-review';

/** What changed since a day, as the page of the review lists it, in SI units. */
export function GET(request: Request): Promise<Response> {
  return respond(request, async () => {
    const query = readQuery(request, reviewQuerySchema);
    return review(await readReview(await openContext(), query), 'si');
  });
}
