import type { DailyColumns } from '../series/daily-columns';
import type { CycleSpan } from './split-cycles';

const SECONDS_PER_DAY = 86_400;

/**
 * Energy that a cleaning was worth so far: over the days with a figure after it, the lost duty before the cleaning less that
 * of the day. A floor: without the cleaning the loss would have gone on rising, and days without a figure are not counted.
 *
 * @param daily          daily figures of the unit
 * @param cycle          the cycle that the cleaning began
 * @param lostDutyBefore lost duty just before the cleaning [W]
 * @returns energy [J] (null where no day counts; below 0 where the unit did worse), days counted and days elapsed, both with the
 *   day of the cleaning and, in the running cycle, today
 * @range  any
 * @source METHODS §8 and §10; sum of daily differences
 * @check  tests/core/cycles/cleaning-result.test.ts
 */
export function energySaved(
  daily: DailyColumns,
  cycle: Pick<CycleSpan, 'from' | 'to' | 'startDay' | 'endDay' | 'end'>,
  lostDutyBefore: number | null,
): { energySoFar: number | null; daysCounted: number; daysElapsed: number } {
  let energy = 0;
  let daysCounted = 0;
  for (let row = cycle.from; row < cycle.to; row++) {
    if (lostDutyBefore === null || Number.isNaN(daily.lostDuty[row]!)) continue;
    energy += (lostDutyBefore - daily.lostDuty[row]!) * SECONDS_PER_DAY;
    daysCounted++;
  }
  const days = cycle.endDay - cycle.startDay + (cycle.end === null ? 1 : 0);
  return {
    energySoFar: daysCounted === 0 ? null : energy,
    daysCounted,
    // The day of the next cleaning is one more where its figure is of readings before that.
    daysElapsed: Math.max(days, daysCounted),
  };
}
