/** How open work is grouped. */
export const WORK_GROUPINGS = ['date', 'outage'] as const;
export type WorkGrouping = (typeof WORK_GROUPINGS)[number];

export type WorkAddress = { by: WorkGrouping; units: string | null };

type SearchParams = Record<string, string | string[] | undefined>;

/** Reads the address; what cannot be read counts as not given. */
export function readWorkAddress(params: SearchParams): WorkAddress {
  const first = (name: string) => [params[name]].flat()[0] ?? null;
  return { by: WORK_GROUPINGS.find((name) => name === first('by')) ?? 'date', units: first('units') };
}

/** The address of the list or its print with some things changed. */
export function workHref(
  address: WorkAddress,
  changes: Partial<WorkAddress> = {},
  path = '/plan/work',
): string {
  const { by, units } = { ...address, ...changes };
  const params = new URLSearchParams();
  if (by !== 'date') params.set('by', by);
  if (units !== null) params.set('units', units);
  const query = params.toString();
  return `${path}${query === '' ? '' : `?${query}`}`;
}
