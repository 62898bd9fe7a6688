import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readReviewAddress } from '@/lib/report/review/review-address';
import { loadReview } from './load-review';
import { readPerson } from './person';
import { ReviewScreen } from './review-screen';

export const metadata = { title: 'Weekly review' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const query = readReviewAddress(given);
  const [system, person] = await Promise.all([readUnitSystem(given), readPerson()]);
  return <ReviewScreen review={await loadReview(query, system)} query={query} person={person} />;
}
