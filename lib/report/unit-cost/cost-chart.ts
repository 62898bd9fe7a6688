import type { ChartColumn, ChartView } from '@/lib/report/format/chart-view';
import { currencySign, formatNumber, MISSING } from '@/lib/report/format/figure';
import { niceScale } from '@/lib/report/format/nice-scale';
import { formatDay } from '@/lib/report/format/time';
import { type TimeAxis, timeAxis } from '@/lib/report/format/time-axis';
import type { CleaningDay } from '@/lib/report/prices/cleaning-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { CostRecords } from './cost-records';

/** The axis reaches so far beyond what must be seen, and at least so many days [-, days] (own choice). */
const ROOM_BEYOND = 1.3;
const LEAST_DAYS = 120;
/** Mean costs above so many times the least are not shown: a cycle that has just begun costs without end [-] (own choice). */
const HIGHEST_SHOWN = 3;
/** Where the clean-by bar lies, as a share of the height of the plot [-]. */
const BAR_HEIGHT = 0.13;

/** Mean cost of the cycle by cleaning day: what has passed as measured, what is to come as expected. */
export function costChart(
  cost: CostRecords,
  day: CleaningDay,
  words: { statement: string; flat: string | null },
): ChartView {
  const { today, currency, records } = cost;
  const { curve } = day;
  const { timeZone } = records.record.site;
  const at = (localDay: number) => startOfLocalDay(localDay, timeZone);
  const { past, ahead, lowest } = shownOf(cost, curve);
  const points = [...past, ...ahead.filter((point) => point.day > 0 || past.length === 0)];
  const axis = axisOf(
    { from: at(today + points[0]!.day), today: at(today), to: at(today + points.at(-1)!.day) },
    timeZone,
  );
  const scale = niceScale(0, Math.max(...points.map(({ meanCost }) => meanCost)));
  const unit = `${currencySign(currency)}/day`;
  const spans = flatSpan(curve, { axis, at, today });
  const cleanBy = cleanByOf(cost, { at, level: scale.min + BAR_HEIGHT * (scale.max - scale.min) });
  const decimals = lowest < 10 ? 2 : 0;
  return {
    name: 'curve',
    title: 'Mean cost of the whole cycle, by the day it is cleaned on',
    unit,
    summary: `${words.statement} ${words.flat ?? ''}`.trim(),
    axis,
    scale,
    time: points.map((point) => at(today + point.day)),
    columns: columnsOf(points, { currency, decimals, hasPast: past.length > 0 }),
    levels: [],
    marks: leastMark(day, { at, unit, decimals }),
    spans,
    missing: [],
    isNamingEvents: true,
    cleanBy,
    isDaily: true,
    note: noteOf(cost, { spans, cleanBy }),
  };
}

type Points = CleaningDay['curve']['ahead'];

function columnsOf(
  points: Points,
  { currency, decimals, hasPast }: { currency: string; decimals: number; hasPast: boolean },
): ChartColumn[] {
  const column = { unit: `${currencySign(currency)}/day`, decimals };
  return [
    {
      ...column,
      role: 'line',
      label: 'mean cost, losses as measured',
      values: points.map((point) => (point.day <= 0 && hasPast ? point.meanCost : null)),
      style: 'main',
    },
    {
      ...column,
      role: 'p50',
      label: 'mean cost, losses as expected',
      values: points.map((point) => (point.day >= 0 ? point.meanCost : null)),
    },
    {
      role: 'table',
      label: 'lost by then in this cycle',
      unit: currencySign(currency),
      decimals: 0,
      values: points.map(({ lossUntilThen }) => lossUntilThen),
    },
  ];
}

function leastMark(
  { bestDay, curve: { least } }: CleaningDay,
  { at, unit, decimals }: { at: (day: number) => number; unit: string; decimals: number },
): ChartView['marks'] {
  if (bestDay === null || least === null) return [];
  const words = `least: ${formatNumber(least.meanCost, decimals)}\u00a0${unit}, ${formatDay(bestDay)}`;
  return [{ at: at(bestDay), symbol: '◇', label: words }];
}

type Shown = Pick<CleaningDay['curve'], 'past' | 'ahead'> & { lowest: number };

/** From the first day whose mean cost lets the rest be read, to the last that must be seen. */
function shownOf(cost: CostRecords, curve: CleaningDay['curve']): Shown {
  const end = lastShown(cost, curve);
  const ahead = curve.ahead.filter(({ day }) => day <= end);
  const lowest =
    curve.least?.meanCost ?? Math.min(...[...curve.past, ...ahead].map(({ meanCost }) => meanCost));
  const highest = lowest > 0 ? HIGHEST_SHOWN * lowest : Number.POSITIVE_INFINITY;
  const first = curve.past.findIndex(({ meanCost }) => meanCost <= highest);
  if (first >= 0) return { past: curve.past.slice(first), ahead, lowest };
  return { past: [], ahead: ahead.filter(({ meanCost }) => meanCost <= highest), lowest };
}

/** So that best day, flat range and clean-by bar are all seen; no further than is projected [days from today]. */
function lastShown({ trend, today }: CostRecords, { ahead, least, flat }: CleaningDay['curve']): number {
  const governing = trend.governing === null ? null : trend.limits[trend.governing]!;
  const cleanBy = governing?.p90Day ?? governing?.p50Day ?? null;
  const wished = [least?.day ?? 0, flat?.to ?? 0, cleanBy === null ? 0 : cleanBy - today];
  return Math.min(
    ahead.at(-1)?.day ?? LEAST_DAYS,
    Math.max(LEAST_DAYS, ...wished.map((days) => days * ROOM_BEYOND)),
  );
}

type Ends = { from: number; today: number; to: number };

function axisOf({ from, today, to }: Ends, timeZone: string): TimeAxis {
  const axis = timeAxis({ from, to, now: from - 1, lastDayToShow: null, timeZone });
  // A single line needs no name at its end, hence no room for one.
  return { ...axis, today: today < from ? null : today, futureShare: 0.5 };
}

type Placed = { axis: TimeAxis; at: (day: number) => number; today: number };

function flatSpan({ flat }: CleaningDay['curve'], { axis, at, today }: Placed): ChartView['spans'] {
  if (flat === null) return [];
  const from = Math.max(axis.from, at(today + Math.ceil(flat.from)));
  const to = flat.to === null ? axis.end : Math.min(at(today + Math.floor(flat.to)), axis.end);
  return to > from ? [{ from, to, label: 'within 5 % of the least' }] : [];
}

function cleanByOf(
  { trend, today }: CostRecords,
  { at, level }: { at: (day: number) => number; level: number },
): ChartView['cleanBy'] {
  const governing = trend.governing === null ? null : trend.limits[trend.governing]!;
  if (governing === null || governing.p50Day === null || governing.crossedDay !== null) return null;
  const { p10Day, p50Day, p90Day } = governing;
  const from = p10Day ?? today;
  const to = p90Day === null ? MISSING : formatDay(p90Day, { year: false });
  return {
    p10: at(from),
    p50: at(p50Day),
    p90: p90Day === null ? null : at(p90Day),
    label: `limit: ${formatDay(from, { year: false })} – ${to}`,
    level,
  };
}

function noteOf({ trend }: CostRecords, { spans, cleanBy }: Pick<ChartView, 'spans' | 'cleanBy'>): string {
  return [
    '(Cleaning + money lost while out of service + losses of the cycle) over its days.',
    'Solid: days that have passed, with losses as measured. Dotted: days ahead, with losses as expected.',
    `It is drawn from where it falls below ${HIGHEST_SHOWN} times the least.`,
    ...(spans.length === 0 ? [] : ['Shaded: within 5 % of the least.']),
    ...(cleanBy === null
      ? []
      : ['The bar shows when the limit is projected to be reached: P10 to P90, with a tick at P50.']),
    ...(trend.cycles.at(-1)?.began === 'record'
      ? ['When this cycle began is not known: it is counted from the first reading.']
      : []),
  ].join(' ');
}
