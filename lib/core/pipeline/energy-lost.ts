import type { CycleSpan } from '../cycles/split-cycles';
import type { DailyColumns } from '../series/daily-columns';
import type { UnitTrend } from './unit-trend';

const SECONDS_PER_DAY = 86_400;
/** Days without a figure between two with one are taken as lying between them, if not more than this [days] (own choice). */
export const LONGEST_BRIDGED_DAYS = 7;

/**
 * Energy lost: the sum of the daily lost duties over their days. Up to 7 days without a figure are taken on a straight line
 * between the figures beside them; longer gaps count as nothing lost, for the unit may have stood.
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
  let energy = 0;
  let days = 0;
  let previous = -1;
  const count = (day: number, lostDuty: number) => {
    if (day < between.firstDay || day > between.lastDay) return;
    energy += lostDuty * SECONDS_PER_DAY;
    days++;
  };
  for (let row = rows.from; row < rows.to; row++) {
    if (Number.isNaN(daily.lostDuty[row]!)) continue;
    if (previous >= 0) bridge(daily, { before: previous, after: row }, count);
    count(daily.day[row]!, daily.lostDuty[row]!);
    previous = row;
  }
  return days === 0 ? null : energy;
}

function bridge(
  { day, lostDuty }: DailyColumns,
  { before, after }: { before: number; after: number },
  count: (day: number, lostDuty: number) => void,
): void {
  const steps = day[after]! - day[before]!;
  if (steps - 1 > LONGEST_BRIDGED_DAYS) return;
  for (let step = 1; step < steps; step++) {
    const share = step / steps;
    count(day[before]! + step, lostDuty[before]! * (1 - share) + lostDuty[after]! * share);
  }
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
