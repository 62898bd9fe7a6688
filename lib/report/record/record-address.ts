/** Shares of a cycle's life at which past projections are made again [%]. */
export const LIVES = [25, 50, 75] as const;
export type Life = (typeof LIVES)[number];
const SCALES = ['days', 'share'] as const;

/**
 * What of the past projections is asked for: the share of life the words and lists are of, what errors are measured in, and the
 * site that is shown of a fleet too large for one page.
 */
export type RecordAddress = {
  life: Life;
  scale: (typeof SCALES)[number];
  units: string | null;
  site?: string | null;
};

type SearchParams = Record<string, string | string[] | undefined>;

/** Reads the address; what cannot be read counts as not given. */
export function readRecordAddress(params: SearchParams): RecordAddress {
  const first = (name: string) => [params[name]].flat()[0] ?? null;
  return {
    life: LIVES.find((life) => String(life) === first('life')) ?? 50,
    scale: SCALES.find((scale) => scale === first('scale')) ?? 'days',
    units: first('units'),
    ...(first('site') ? { site: first('site') } : {}),
  };
}

/** The address of the page with some things changed. */
export function recordHref(address: RecordAddress, changes: Partial<RecordAddress> = {}): string {
  const { life, scale, units, site } = { ...address, ...changes };
  const params = new URLSearchParams();
  if (life !== 50) params.set('life', String(life));
  if (scale !== 'days') params.set('scale', scale);
  if (units !== null) params.set('units', units);
  if (site) params.set('site', site);
  const query = params.toString();
  return `/record${query === '' ? '' : `?${query}`}`;
}
