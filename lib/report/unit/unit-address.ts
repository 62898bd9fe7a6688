import { DAY_MS, isoDay } from '@/lib/time/calendar-day';

/** Periods a reader can pick by name; `custom` is one with its own first and last day. */
export const PERIODS = ['30d', '90d', 'cycle', '1y', 'all', 'custom'] as const;
export type PeriodName = (typeof PERIODS)[number];

/** Figures of the page that can be shown as a table; the names stand in the address. */
export const FIGURES = [
  'fouling',
  'hot-pressure-drop',
  'cold-pressure-drop',
  'conductance',
  'duty',
  'balance',
  'temperatures',
  'flows',
] as const;
export type FigureName = (typeof FIGURES)[number];

/** Everything of the unit page that stands in its address, so that a link shows the same page. */
export type UnitAddress = {
  tag: string;
  /** Null: the reader has not chosen. */
  period: PeriodName | null;
  /** First and last local day of a custom period. */
  fromDay: number | null;
  toDay: number | null;
  /** Instant of the reading to work out [ms]; null: the newest accepted one. */
  reading: number | null;
  /** Whether "How was this worked out?" is open. */
  isWorkedOut: boolean;
  tables: FigureName[];
  /** Stretch picked to be judged [ms]; null: the shown period. */
  stretch: { from: number; to: number } | null;
  /** The unit system asked for in the address, kept in every link. */
  units: string | null;
};

export type SearchParams = Record<string, string | string[] | undefined>;

/** Reads the address; what cannot be read counts as not given. */
export function parseUnitAddress(tag: string, params: SearchParams): UnitAddress {
  const first = (name: string) => [params[name]].flat()[0] ?? null;
  const fromDay = parseIsoDay(first('from') ?? '');
  const toDay = parseIsoDay(first('to') ?? '');
  const isCustom = fromDay !== null && toDay !== null && fromDay <= toDay;
  const named = PERIODS.find((name) => name === first('period') && name !== 'custom') ?? null;
  return {
    tag,
    period: isCustom ? 'custom' : named,
    fromDay: isCustom ? fromDay : null,
    toDay: isCustom ? toDay : null,
    reading: parseInstant(first('reading')),
    isWorkedOut: first('how') === '1',
    tables: FIGURES.filter((name) => (first('table') ?? '').split(',').includes(name)),
    stretch: parseStretch(first('stretch')),
    units: first('units'),
  };
}

/** The address that shows the page with some things changed. */
export function unitHref(address: UnitAddress, changes: Partial<UnitAddress> = {}, anchor = ''): string {
  const next = { ...address, ...changes };
  const params = new URLSearchParams();
  if (next.period === 'custom' && next.fromDay !== null && next.toDay !== null) {
    params.set('from', isoDay(next.fromDay));
    params.set('to', isoDay(next.toDay));
  } else if (next.period !== null && next.period !== 'custom') params.set('period', next.period);
  if (next.reading !== null) params.set('reading', instantText(next.reading));
  if (next.isWorkedOut) params.set('how', '1');
  if (next.tables.length > 0) params.set('table', next.tables.join(','));
  if (next.stretch !== null)
    params.set('stretch', `${instantText(next.stretch.from)}/${instantText(next.stretch.to)}`);
  if (next.units !== null) params.set('units', next.units);
  // Colons and slashes are allowed in a query, and an instant with them can be read by a person.
  const query = params.toString().replaceAll('%3A', ':').replaceAll('%2C', ',').replaceAll('%2F', '/');
  return `${unitPath(next.tag)}${query === '' ? '' : `?${query}`}${anchor === '' ? '' : `#${anchor}`}`;
}

export function unitPath(tag: string): string {
  return `/units/${encodeURIComponent(tag)}`;
}

/** An instant as the address writes it: ISO 8601 in UTC without needless zeros. */
export function instantText(instant: number): string {
  return new Date(instant).toISOString().replace(/(:00)?\.000Z$/, 'Z');
}

/** Two instants as an ISO 8601 interval writes them, `from/to`. */
function parseStretch(text: string | null): UnitAddress['stretch'] {
  const [from = null, to = null] = (text ?? '').split('/').map(parseInstant);
  return from !== null && to !== null && from < to ? { from, to } : null;
}

function parseInstant(text: string | null): number | null {
  if (text === null || !/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(text)) return null;
  // "+" of an offset arrives as a space when a person types it unescaped.
  const instant = Date.parse(text.replace(' ', '+'));
  return Number.isNaN(instant) ? null : instant;
}

/** The day number of "2026-11-25"; null when the text is no date. */
function parseIsoDay(text: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const ms = Date.parse(`${text}T00:00:00Z`);
  // Date.parse takes 30 February for 2 March; such a text is no date.
  return Number.isNaN(ms) || isoDay(ms / DAY_MS) !== text ? null : ms / DAY_MS;
}
