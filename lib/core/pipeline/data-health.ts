import { REASONS } from '../checks/reasons';
import type { DailyColumns } from '../series/daily-columns';
import type { UnitTrend } from './unit-trend';

/** Days that a unit's data health is judged over [days]. */
export const HEALTH_DAYS = 30;

/**
 * Data health of a unit: share of usable readings over the last 30 days, the reason that left out most of the rest, and
 * since which day that reason has been the day's worst without interruption (days without readings do not interrupt).
 *
 * @param daily         daily figures up to today
 * @param todayLocalDay today [days since 1970-01-01]
 * @returns usable share [-] and worst reason, null where nothing is left out; without any reading in those days the reason
 *   is 'missing' since the day after the last reading
 * @range  any
 * @source METHODS §7
 * @check  tests/core/pipeline/data-health.test.ts
 */
export function dataHealth(daily: DailyColumns, todayLocalDay: number): UnitTrend['health'] {
  const leftOut = new Float64Array(REASONS.length);
  let readings = 0;
  let accepted = 0;
  for (let row = daily.day.length - 1; row >= 0 && daily.day[row]! > todayLocalDay - HEALTH_DAYS; row--) {
    readings += daily.readings[row]!;
    accepted += daily.accepted[row]!;
    const worst = daily.worstReason[row]!;
    if (worst >= 0) leftOut[worst]! += daily.readings[row]! - daily.accepted[row]!;
  }
  if (readings === 0) {
    const lastDay = daily.day.at(-1);
    return { usable: null, worstReason: 'missing', sinceDay: lastDay === undefined ? null : lastDay + 1 };
  }
  const worst = leftOut.reduce((best, count, reason) => (count > leftOut[best]! ? reason : best), 0);
  if (leftOut[worst] === 0) return { usable: accepted / readings, worstReason: null, sinceDay: null };
  return {
    usable: accepted / readings,
    worstReason: REASONS[worst]!,
    sinceDay: dominatesSince(daily, worst),
  };
}

/** First day of the latest unbroken run of days whose worst reason this is. */
function dominatesSince({ day, worstReason }: DailyColumns, reason: number): number {
  let row = worstReason.lastIndexOf(reason);
  while (row > 0 && worstReason[row - 1] === reason) row--;
  return day[row]!;
}
