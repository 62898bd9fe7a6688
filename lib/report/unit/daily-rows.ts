import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { DAY_MS } from '@/lib/time/calendar-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import { thinDays } from './thin-days';

/** A day without an accepted reading stands at its middle [ms]. */
const NOON_MS = DAY_MS / 2;

export type DailyRows = {
  time: number[];
  /** Whether days were left out that a drawing of this width need not have. */
  isReduced: boolean;
  /** Row of the daily figures behind each of these, −1 for an empty one. */
  source: number[];
  /** The values of a daily column in these rows, NaN in the empty ones. */
  pick: (column: ArrayLike<number>) => number[];
};

/** Daily columns that are drawn, and into how many columns of pixels; all days are kept where nothing is said. */
type Drawing = { drawn: readonly ArrayLike<number>[]; buckets: number };

/** Rows of the daily figures inside an axis, with an empty row where days are missing or a new cycle begins. */
export function dailyRows(
  daily: DailyColumns,
  axis: TimeAxis,
  cuts: number[],
  { drawn, buckets }: Drawing = { drawn: [], buckets: Number.POSITIVE_INFINITY },
): DailyRows {
  const time: number[] = [];
  const source: number[] = [];
  const push = (at: number, row: number) => {
    time.push(at);
    source.push(row);
  };
  let previous = { at: Number.NaN, day: Number.NaN };
  daily.day.forEach((day, i) => {
    const start = startOfLocalDay(day, axis.timeZone);
    const at = figureTime(daily, i, start);
    if (at < axis.from || at > axis.end) return;
    const isCut = cuts.some((cut) => cut > previous.at && cut <= at);
    if (day - previous.day > 1 || isCut) push((at + previous.at) / 2, -1);
    push(at, i);
    previous = { at, day };
  });
  const all = { time, source };
  const shown = thinDays(all, drawn, { from: axis.from, to: axis.today ?? axis.end, buckets, cuts });
  return {
    ...shown,
    isReduced: shown.time.length < time.length,
    pick: (column) => shown.source.map((row) => (row < 0 ? Number.NaN : column[row]!)),
  };
}

/** A day's figure stands in the middle of its accepted readings: on the day of a cleaning that tells before from after. */
function figureTime({ firstAccepted, lastAccepted }: DailyColumns, row: number, start: number): number {
  const middle = (firstAccepted[row]! + lastAccepted[row]!) / 2;
  return Math.round(Number.isFinite(middle) ? middle : start + NOON_MS);
}

/** Instants at which a new cycle begins: no line runs across a cleaning, nor across a probable one. */
export function cycleCuts(trend: Pick<UnitTrend, 'cycles' | 'probableCleanings'> | null): number[] {
  if (trend === null) return [];
  const recorded = trend.cycles.flatMap(({ start }) => start ?? []);
  return [...recorded, ...trend.probableCleanings.map(({ latest }) => latest)];
}
