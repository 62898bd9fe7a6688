import { type ChangesQuery, changesQuerySchema } from '@/lib/contract/changes';

type Given = Record<string, string | string[] | undefined>;

/** What a page's address asks for; what cannot be read is left out. */
export function readChangesAddress(given: Given): ChangesQuery {
  const stated = Object.entries(given)
    .map(([name, value]) => [name, [value].flat()[0]] as const)
    .filter(([, value]) => value !== undefined && value !== '')
    .filter(([name, value]) => changesQuerySchema.safeParse({ [name]: value }).success);
  const query = changesQuerySchema.safeParse(Object.fromEntries(stated));
  // Days the wrong way round: the first of them holds.
  return query.success
    ? query.data
    : changesQuerySchema.parse({ ...Object.fromEntries(stated), to: undefined });
}

/** The address that shows other changes, or gives them as a file; what is not asked for is left out. */
export function changesHref(
  query: ChangesQuery,
  change: Partial<ChangesQuery> = {},
  path = '/changes',
): string {
  const params = new URLSearchParams();
  for (const [name, value] of Object.entries({ ...query, ...change }))
    if (value !== undefined && value !== '') params.set(name, `${value}`);
  const text = params.toString();
  return text === '' ? path : `${path}?${text}`;
}
