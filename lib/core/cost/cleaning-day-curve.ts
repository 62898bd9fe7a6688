import { type CycleCost, meanCycleCost, nearOptimumCycles, optimumCycle } from './optimum-cycle';
import { tabulatedLoss } from './tabulated-loss';

/** Days count as nearly as good as the best where their mean cost is at most this share above it [-] (own choice). */
export const NEARLY_BEST = 0.05;

/** The running cycle: what it has cost, what it is expected to cost, and what a cleaning costs. */
export type RunningCycle = Omit<CycleCost, 'loss'> & {
  /** Days from today, ascending from 0 [days], at least two; and the expected loss rate at each [money/day]. */
  ages: readonly number[];
  lossRates: readonly number[];
};

/** Mean cost of the running cycle by the day it is cleaned on. */
export type CleaningDayCurve = {
  /** At each age (but not at 0 of a cycle of no length and without outage): mean cost of the whole cycle [money/day], and what it will have lost by then [money]. */
  points: { day: number; meanCost: number; lossUntilThen: number }[];
  /** Days from today of the least mean cost; null where it still falls at the last age. */
  best: { day: number; meanCost: number } | null;
  /** Days from today between which the mean cost is at most 5 % above the least; `to` null: beyond the last age. */
  flat: { from: number; to: number | null } | null;
};

/**
 * What the running cycle costs per day, by the day it is cleaned on: (cleaning + downtime + ∫ loss)/(cycle + outage), with the
 * past as it was. The loss rate runs on straight lines between the ages, and so does its exact integral.
 *
 * @param running the cycle; money in one currency, days from today
 * @returns curve, its least and how flat it is [days, money/day]
 * @range  loss rates not falling; RangeError for unequal lengths
 * @source METHODS §10; see `optimumCycle`
 * @check  tests/core/cost/cleaning-day-curve.test.ts
 */
export function cleaningDayCurve({ ages, lossRates, ...cycle }: RunningCycle): CleaningDayCurve {
  const cost: CycleCost = { ...cycle, loss: tabulatedLoss(ages, lossRates) };
  const optimum = optimumCycle(cost, ages);
  const { cycleDays, meanCost } = optimum;
  return {
    points: ages
      .map((day) => ({
        day,
        meanCost: meanCycleCost(cost, day),
        lossUntilThen: cycle.lossSoFar + cost.loss.until(day),
      }))
      .filter((point) => Number.isFinite(point.meanCost)),
    best: cycleDays === null ? null : { day: cycleDays, meanCost },
    flat: nearOptimumCycles(cost, optimum, { share: NEARLY_BEST, latestDays: ages.at(-1)! }),
  };
}
