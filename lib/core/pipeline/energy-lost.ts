import { countedDays, valueOn } from '../cost/bridged-days';
import { SECONDS_PER_DAY } from '../cost/daily-losses';
import type { CycleSpan } from '../cycles/split-cycles';
import type { DailyColumns } from '../series/daily-columns';
import type { UnitTrend } from './unit-trend';

/**
 * Energy lost: the sum of the daily lost duties over the days that count (see `countedDays`).
 *
 * @param daily  daily figures
 * @param rows   rows to take, `from` included, `to` excluded: not across a cleaning
 * @param between local days to count, both included
 * @returns [J], null where no day counts
 * @range  any; negative where the unit did better than its clean reference
 * @source METHODS §10; trapezoidal rule over the bridged days
 * @check  tests/core/pipeline/energy-lost.test.ts
 */
export function energyLost(
  daily: DailyColumns,
  rows: { from: number; to: number },
  between: { firstDay: number; lastDay: number },
): number | null {
  const { firstDay, lastDay } = between;
  const days = countedDays(daily, rows, firstDay).filter(({ day }) => day <= lastDay);
  if (days.length === 0) return null;
  return days.reduce((sum, day) => sum + valueOn(daily.lostDuty, day) * SECONDS_PER_DAY, 0);
}

/** The shorter of the two periods that losses are given for [days]. */
export const LOSS_DAYS = 30;

/**
 * Energy lost since the running cycle began and over the last 30 days.
 *
 * @param daily         daily figures up to today
 * @param spans         cycles, the running one last
 * @param todayLocalDay today [days since 1970-01-01]
 * @returns both [J]; null where no day counts
 * @range  any
 * @source METHODS §10
 * @check  tests/core/pipeline/energy-lost.test.ts
 */
export function losses(
  daily: DailyColumns,
  spans: readonly CycleSpan[],
  todayLocalDay: number,
): Pick<UnitTrend, 'energyLostSinceCleaning' | 'energyLostLast30Days'> {
  const running = spans.at(-1);
  if (running === undefined) return { energyLostSinceCleaning: null, energyLostLast30Days: null };
  const lastDays = { firstDay: todayLocalDay - LOSS_DAYS + 1, lastDay: todayLocalDay };
  const parts = spans.map((span) => energyLost(daily, span, lastDays)).filter((part) => part !== null);
  return {
    energyLostSinceCleaning: energyLost(daily, running, {
      firstDay: running.startDay,
      lastDay: todayLocalDay,
    }),
    energyLostLast30Days: parts.length === 0 ? null : parts.reduce((sum, part) => sum + part, 0),
  };
}

/** Figures that "today's" lost duty is a mean of [days with a figure]: a week evens out the load. */
export const LOST_DUTY_FIGURES = 7;

/**
 * Mean lost duty of the last seven days with figures.
 *
 * @param daily daily figures
 * @param rows  rows to take, `from` included, `to` excluded
 * @returns [W]; null without any figure
 * @range  any
 * @source arithmetic mean
 * @check  tests/core/pipeline/energy-lost.test.ts
 */
export function recentLostDuty(daily: DailyColumns, rows: { from: number; to: number }): number | null {
  let sum = 0;
  let count = 0;
  for (let row = rows.to - 1; row >= rows.from && count < LOST_DUTY_FIGURES; row--) {
    if (Number.isNaN(daily.lostDuty[row]!)) continue;
    sum += daily.lostDuty[row]!;
    count++;
  }
  return count === 0 ? null : sum / count;
}
