import type { DailyColumns } from '../series/daily-columns';
import type { CycleSpan } from './split-cycles';

const SECONDS_PER_DAY = 86_400;

/** Duty of a day less what the unit would have transferred on it with another fouling [W]; NaN where the day does not tell. */
export type WonDuty = (row: number, foulingResistance: number) => number;

/**
 * Energy that a cleaning was worth so far: over the days with a figure after it, the duty less what the unit would have
 * transferred at the same inlets and flows had it stayed as fouled as before. A floor: without the cleaning the fouling
 * would have gone on growing, and days without a figure are not counted.
 *
 * @param daily   daily figures of the unit
 * @param cycle   the cycle that the cleaning began
 * @param before  fouling just before the cleaning [m²·K/W]
 * @param wonDuty duty of a day less that at another fouling [W]
 * @returns energy [J] (null where no day counts; below 0 where the unit fouled beyond its level before), days counted and days
 *   elapsed, both with the day of the cleaning and, in the running cycle, today
 * @range  any
 * @source METHODS §8 and §10; sum of daily differences
 * @check  tests/core/cycles/cleaning-result.test.ts
 */
export function energySaved(
  daily: DailyColumns,
  cycle: Pick<CycleSpan, 'from' | 'to' | 'startDay' | 'endDay' | 'end'>,
  { before, wonDuty }: { before: number; wonDuty: WonDuty },
): { energySoFar: number | null; daysCounted: number; daysElapsed: number } {
  let energy = 0;
  let daysCounted = 0;
  for (let row = cycle.from; row < cycle.to; row++) {
    const won = Number.isNaN(daily.foulingResistance[row]!) ? Number.NaN : wonDuty(row, before);
    if (Number.isNaN(won)) continue;
    energy += won * SECONDS_PER_DAY;
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
