import { openPage, readVisitor } from '@/app/access/open-page';
import { readUnitSystem, type SearchParams } from '@/app/ui/preferences';
import { readReviewAddress } from '@/lib/report/review/review-address';
import { siteToShow } from '@/lib/work/shown-site';
import { loadReview } from './load-review';
import { ReviewScreen } from './review-screen';

export const metadata = { title: 'Weekly review' };

export default async function Page({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const given = await searchParams;
  const asked = readReviewAddress(given);
  const { site, isOneOnly } = await siteToShow(await openPage('/review'), asked.site ?? null);
  const query = site === null ? asked : { ...asked, site };
  const system = await readUnitSystem(given);
  const review = await loadReview(query, system);
  const person = (await readVisitor())?.actor.name ?? '';
  return <ReviewScreen review={review} query={query} person={person} isOneSiteOnly={isOneOnly} />;
}
