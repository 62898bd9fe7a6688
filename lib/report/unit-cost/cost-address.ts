import { type SearchParams, unitPath } from '@/lib/report/unit/unit-address';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';

/** Everything of a unit's cost page that stands in its address. */
export type CostAddress = {
  tag: string;
  /** Local day up to which losses are projected; null: the reader has not chosen. */
  untilDay: number | null;
  /** Whether the curve is shown as a table. */
  isTable: boolean;
  /** The unit system asked for in the address, kept in every link. */
  units: string | null;
};

/** Reads the address; what cannot be read counts as not given. */
export function readCostAddress(tag: string, params: SearchParams): CostAddress {
  const first = (name: string) => [params[name]].flat()[0] ?? null;
  const until = first('until');
  const day = until !== null && /^\d{4}-\d{2}-\d{2}$/.test(until) ? dayNumber(until) : Number.NaN;
  return {
    tag,
    untilDay: Number.isFinite(day) && isoDay(day) === until ? day : null,
    isTable: first('table') === 'curve',
    units: first('units'),
  };
}

/** The address that shows the page with some things changed. */
export function costHref(address: CostAddress, changes: Partial<CostAddress> = {}): string {
  const { tag, untilDay, isTable, units } = { ...address, ...changes };
  const params = new URLSearchParams();
  if (untilDay !== null) params.set('until', isoDay(untilDay));
  if (isTable) params.set('table', 'curve');
  if (units !== null) params.set('units', units);
  const query = params.toString();
  return `${unitPath(tag)}/cost${query === '' ? '' : `?${query}`}`;
}
