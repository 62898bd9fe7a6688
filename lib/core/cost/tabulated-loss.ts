import { interpolate } from '../series/interpolate';
import type { Loss } from './optimum-cycle';

/**
 * A loss rate given at some days, straight lines between, with its exact integral.
 *
 * @param days  ascending from 0, length n ≥ 1 [days]
 * @param rates loss rate at each [money/day]
 * @returns rate and integral since day 0; beyond the last day the rate stays as it was
 * @range  days ≥ 0; RangeError for unequal lengths or no day
 * @source trapezoidal rule, exact for straight lines
 * @check  tests/core/cost/cleaning-day-curve.test.ts
 */
export function tabulatedLoss(days: readonly number[], rates: readonly number[]): Loss {
  if (days.length !== rates.length || days.length === 0) throw new RangeError('days and rates must match');
  const lost = [0];
  for (let i = 1; i < days.length; i++)
    lost.push(lost[i - 1]! + ((rates[i - 1]! + rates[i]!) / 2) * (days[i]! - days[i - 1]!));
  const rateAt = (day: number) => interpolate(days, rates, day);
  return {
    rateAt,
    until: (day) => {
      const i = Math.max(
        0,
        days.findLastIndex((from) => from <= day),
      );
      return lost[i]! + ((rates[i]! + rateAt(day)) / 2) * (day - days[i]!);
    },
  };
}
