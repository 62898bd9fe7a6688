import { notFound } from 'next/navigation';
import { openPage } from '@/app/access/open-page';
import { AppError } from '@/lib/contract/app-error';
import type { Review, ReviewQuery } from '@/lib/contract/review';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { review } from '@/lib/report/review/review';
import { readReview } from '@/lib/work/read-review';

/** The review an address asks for; the page of what is not there for a site that is not. */
export async function loadReview(query: ReviewQuery, system: UnitSystem): Promise<Review> {
  try {
    return review(await readReview(await openPage('/review'), query), system);
  } catch (error) {
    if (error instanceof AppError && error.code === 'not-found') notFound();
    throw error;
  }
}
