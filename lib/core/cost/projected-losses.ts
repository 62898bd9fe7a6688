import { interpolate } from '../series/interpolate';
import { type DailyLosses, SECONDS_PER_DAY } from './daily-losses';

/** Expected losses at ages counted from today: ascending from 0 [days], lost duty and extra power of the pumps [W]. */
export type ExpectedLosses = {
  ageDays: readonly number[];
  lostDuty: readonly number[];
  pumping: readonly number[];
  /** Whether anything is known of the pumps; else their work is NaN. */
  isPumpingKnown: boolean;
};

/**
 * Expected losses of each day after today, so that they are priced as those of the past are.
 *
 * @param expected at some ages, straight lines between
 * @param between  today as local day, and the last day wanted; no later than the last age
 * @returns one row per day from tomorrow on [J]; nothing is said of flow and margin
 * @range  RangeError without any age
 * @source linear interpolation
 * @check  tests/core/cost/projected-losses.test.ts
 */
export function projectedLosses(
  { ageDays, lostDuty, pumping, isPumpingKnown }: ExpectedLosses,
  { today, lastDay }: { today: number; lastDay: number },
): DailyLosses {
  if (ageDays.length === 0) throw new RangeError('expected losses need at least one age');
  const count = Math.max(0, Math.min(lastDay - today, Math.floor(ageDays.at(-1)!)));
  const daysAhead = Array.from({ length: count }, (_, i) => i + 1);
  const work = (rates: readonly number[]) =>
    Float64Array.from(daysAhead, (ahead) => SECONDS_PER_DAY * interpolate(ageDays, rates, ahead));
  const unknown = () => new Float64Array(count).fill(Number.NaN);
  return {
    day: Int32Array.from(daysAhead, (ahead) => today + ahead),
    heat: work(lostDuty),
    pumping: isPumpingKnown ? work(pumping) : unknown(),
    extraFlow: unknown(),
    marginLeft: unknown(),
    isBridged: new Uint8Array(count),
  };
}
