import { COST_PERIODS, type CostPeriod } from '@/lib/contract/costs';
import { DAY_MS, isoDay } from '@/lib/time/calendar-day';

/** What of the cost of fouling is asked for: a period by name or by its days, a site or all; `month` is the printed page's. */
export type EnergyAddress = {
  period: CostPeriod | 'custom';
  fromDay: number | null;
  toDay: number | null;
  site: string | null;
  units: string | null;
};

type SearchParams = Record<string, string | string[] | undefined>;

/** Reads the address; what cannot be read counts as not given. */
export function readEnergyAddress(params: SearchParams): EnergyAddress {
  const first = (name: string) => [params[name]].flat()[0] || null;
  const fromDay = parseDay(first('from'));
  const toDay = parseDay(first('to'));
  const kept = { site: first('site'), units: first('units') };
  if (fromDay !== null && toDay !== null && fromDay <= toDay)
    return { period: 'custom', fromDay, toDay, ...kept };
  const period = COST_PERIODS.find((name) => name === first('period')) ?? COST_PERIODS[0];
  return { period, fromDay: null, toDay: null, ...kept };
}

/** The address of the page or a file with some things changed. */
export function energyHref(
  address: EnergyAddress,
  changes: Partial<EnergyAddress> = {},
  path = '/energy',
): string {
  const { period, fromDay, toDay, site, units } = { ...address, ...changes };
  const params = new URLSearchParams();
  if (period === 'custom' && fromDay !== null && toDay !== null) {
    params.set('from', isoDay(fromDay));
    params.set('to', isoDay(toDay));
  } else if (period !== COST_PERIODS[0]) params.set('period', period);
  return withRest(path, params, { site, units });
}

/** The address of the printed page of a month, `YYYY-MM`. */
export function monthHref(month: string, kept: Pick<EnergyAddress, 'site' | 'units'>): string {
  return withRest('/energy/month', new URLSearchParams({ month }), kept);
}

function withRest(
  path: string,
  params: URLSearchParams,
  { site, units }: Pick<EnergyAddress, 'site' | 'units'>,
): string {
  if (site !== null) params.set('site', site);
  if (units !== null) params.set('units', units);
  const query = params.toString();
  return `${path}${query === '' ? '' : `?${query}`}`;
}

function parseDay(text: string | null): number | null {
  if (text === null || !/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const day = Date.parse(`${text}T00:00:00Z`) / DAY_MS;
  // 30 February is no day, though Date.parse may take it for 2 March.
  return Number.isNaN(day) || isoDay(day) !== text ? null : day;
}
