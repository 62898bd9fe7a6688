import { readVisitor } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readReviewAddress } from '@/lib/report/review/review-address';
import { loadReview } from './load-review';
import { ReviewScreen } from './review-screen';

export const metadata = { title: 'Weekly review' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const query = readReviewAddress(given);
  const system = await readUnitSystem(given);
  const review = await loadReview(query, system);
  return <ReviewScreen review={review} query={query} person={(await readVisitor())?.actor.name ?? ''} />;
}
