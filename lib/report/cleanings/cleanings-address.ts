import { CLEANING_PERIODS } from '@/lib/contract/fleet-cleanings';
import { DAY_MS, isoDay } from '@/lib/time/calendar-day';

export type CleaningPeriodName = (typeof CLEANING_PERIODS)[number];

/** What of the cleanings is asked for: a period by name, or by its first and last day. */
export type CleaningsAddress = {
  period: CleaningPeriodName | 'custom';
  fromDay: number | null;
  toDay: number | null;
  units: string | null;
  /** The site that is shown of a fleet too large for one page. */
  site?: string | null;
};

type SearchParams = Record<string, string | string[] | undefined>;

/** Reads the address; what cannot be read counts as not given. */
export function readCleaningsAddress(params: SearchParams): CleaningsAddress {
  const first = (name: string) => [params[name]].flat()[0] ?? null;
  const fromDay = parseDay(first('from'));
  const toDay = parseDay(first('to'));
  const kept = { units: first('units'), site: first('site') };
  if (fromDay !== null && toDay !== null && fromDay <= toDay)
    return { period: 'custom', fromDay, toDay, ...kept };
  const named = CLEANING_PERIODS.find((name) => name === first('period')) ?? CLEANING_PERIODS[0];
  return { period: named, fromDay: null, toDay: null, ...kept };
}

/** The address of a page or file with some things changed. */
export function cleaningsHref(
  address: CleaningsAddress,
  changes: Partial<CleaningsAddress> = {},
  path = '/cleanings',
): string {
  const next = { ...address, ...changes };
  const params = new URLSearchParams();
  if (next.period === 'custom' && next.fromDay !== null && next.toDay !== null) {
    params.set('from', isoDay(next.fromDay));
    params.set('to', isoDay(next.toDay));
  } else if (next.period !== CLEANING_PERIODS[0]) params.set('period', next.period);
  if (next.units !== null) params.set('units', next.units);
  if (next.site) params.set('site', next.site);
  const query = params.toString();
  return `${path}${query === '' ? '' : `?${query}`}`;
}

function parseDay(text: string | null): number | null {
  if (text === null || !/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const day = Date.parse(`${text}T00:00:00Z`) / DAY_MS;
  // 30 February is no day, though Date.parse may take it for 2 March.
  return Number.isNaN(day) || isoDay(day) !== text ? null : day;
}
