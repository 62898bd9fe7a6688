import { type ReviewQuery, reviewQuerySchema } from '@/lib/contract/review';

type Given = Record<string, string | string[] | undefined>;

/** What a page's address asks for; what cannot be read takes its default. */
export function readReviewAddress(given: Given): ReviewQuery {
  const stated = Object.entries(given)
    .map(([name, value]) => [name, [value].flat()[0]] as const)
    .filter(([, value]) => value !== undefined && value !== '')
    .filter(([name, value]) => reviewQuerySchema.safeParse({ [name]: value }).success);
  return reviewQuerySchema.parse(Object.fromEntries(stated));
}

/** The address that shows the review of other days or lines; defaults are left out. */
export function reviewHref(query: ReviewQuery, change: ReviewQuery = {}): string {
  const params = new URLSearchParams();
  for (const [name, value] of Object.entries({ ...query, ...change }))
    if (value !== undefined && value !== '') params.set(name, value);
  const text = params.toString();
  return text === '' ? '/review' : `/review?${text}`;
}
