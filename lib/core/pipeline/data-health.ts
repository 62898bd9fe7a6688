import { REASONS } from '../checks/reasons';
import type { DailyColumns } from '../series/daily-columns';
import type { UnitTrend } from './unit-trend';

const UNIT_OFF = REASONS.indexOf('unit-off');

/** Days that a unit's data health is judged over [days]. */
export const HEALTH_DAYS = 30;

/**
 * Data health of a unit: share of usable readings among those of the last 30 days in which it ran, the reason that left
 * out most of the rest (standing still counts only where the unit never ran), and
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
  let running = 0;
  let readings = 0;
  let accepted = 0;
  for (let row = daily.day.length - 1; row >= 0 && daily.day[row]! > todayLocalDay - HEALTH_DAYS; row--) {
    running += daily.readings[row]! - daily.off[row]!;
    readings += daily.readings[row]!;
    accepted += daily.accepted[row]!;
    const worst = daily.worstReason[row]!;
    if (worst >= 0)
      leftOut[worst]! +=
        daily.readings[row]! - daily.accepted[row]! - (worst === UNIT_OFF ? 0 : daily.off[row]!);
  }
  if (readings === 0) {
    const lastDay = daily.day.at(-1);
    return { usable: null, worstReason: 'missing', sinceDay: lastDay === undefined ? null : lastDay + 1 };
  }
  const usable = running === 0 ? null : accepted / running;
  const faults = leftOut.map((count, reason) => (reason === UNIT_OFF && running > 0 ? 0 : count));
  const worst = faults.reduce((best, count, reason) => (count > faults[best]! ? reason : best), 0);
  if (faults[worst] === 0) return { usable, worstReason: null, sinceDay: null };
  return {
    usable,
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
