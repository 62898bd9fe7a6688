import {
  type CleaningDayCurve,
  cleaningDayCurve,
  NEARLY_BEST,
  type RunningCycle,
} from './cleaning-day-curve';
import { meanCycleCost, nearOptimumCycles } from './optimum-cycle';
import { tabulatedLoss } from './tabulated-loss';

/** The running cycle with its past day by day. */
export type WholeCycle = Omit<RunningCycle, 'daysSoFar' | 'lossSoFar'> & {
  /** Money lost since the cycle began up to the end of each of its days so far, the last one today [money]. */
  lostUntil: readonly number[];
};

type Point = CleaningDayCurve['points'][number];

/** Mean cost of the running cycle by the day it is or was cleaned on; days from today, those that have passed below 0. */
export type WholeCycleCurve = {
  /** Each day of the cycle so far, today the last; then `cleaningDayCurve` from today on. */
  past: Point[];
  ahead: Point[];
  /** The least of all days; null where it still falls at the last age. */
  least: { day: number; meanCost: number } | null;
  /** The least of the days ahead, today included; null likewise. */
  leastAhead: { day: number; meanCost: number } | null;
  /** Unbroken range about the least in which the mean cost is at most 5 % above it; `to` null: beyond the last age. */
  flat: { from: number; to: number | null } | null;
};

/**
 * What the running cycle costs per day by the day of its cleaning, from its first day on: the days that have passed with the
 * losses as they were, those ahead as `cleaningDayCurve` expects them.
 *
 * @param cycle past by day, ages and loss rates ahead, cleaning, downtime and outage; money in one currency
 * @returns both parts of the curve, its least and how flat it is about it [days from today, money/day]
 * @range  at least one day so far; loss rates ahead not falling
 * @source METHODS §10; see `meanCycleCost`
 * @check  tests/core/cost/whole-cycle-curve.test.ts
 */
export function wholeCycleCurve({ lostUntil, ...running }: WholeCycle): WholeCycleCurve {
  const cycle = { ...running, daysSoFar: lostUntil.length, lossSoFar: lostUntil.at(-1) ?? 0 };
  const ahead = cleaningDayCurve(cycle);
  const past = pastPoints(cycle, lostUntil);
  const least = leastOf(ahead, past);
  const flat = least === null ? null : flatAbout(least, past, cycle);
  return { past, ahead: ahead.points, least, leastAhead: ahead.best, flat };
}

function pastPoints(cycle: RunningCycle, lostUntil: readonly number[]): Point[] {
  const { cleaningCost, downtimeCost, outageDays } = cycle;
  return lostUntil.map((lost, index) => ({
    day: index + 1 - lostUntil.length,
    meanCost: (cleaningCost + downtimeCost + lost) / (index + 1 + outageDays),
    lossUntilThen: lost,
  }));
}

function leastOf({ best }: CleaningDayCurve, past: readonly Point[]): WholeCycleCurve['least'] {
  if (best === null) return null;
  return past.reduce(
    (least, { day, meanCost }) => (meanCost < least.meanCost ? { day, meanCost } : least),
    best,
  );
}

function flatAbout(
  least: { day: number; meanCost: number },
  past: readonly Point[],
  cycle: RunningCycle,
): WholeCycleCurve['flat'] {
  const isDear = ({ meanCost }: Point) => meanCost > (1 + NEARLY_BEST) * least.meanCost;
  const lastBefore = past.findLast((point) => point.day < least.day && isDear(point));
  const firstAfter = past.find((point) => point.day > least.day && isDear(point));
  const cost = { ...cycle, loss: tabulatedLoss(cycle.ages, cycle.lossRates) };
  const latestDays = cycle.ages.at(-1)!;
  const optimum = { cycleDays: Math.max(0, least.day), meanCost: least.meanCost };
  const near = nearOptimumCycles(cost, optimum, { share: NEARLY_BEST, latestDays })!;
  const isTodayIn = meanCycleCost(cost, 0) <= (1 + NEARLY_BEST) * least.meanCost;
  const from = isTodayIn || least.day <= 0 ? (lastBefore?.day ?? -past.length) + 1 : near.from;
  return { from, to: firstAfter === undefined ? near.to : firstAfter.day - 1 };
}
