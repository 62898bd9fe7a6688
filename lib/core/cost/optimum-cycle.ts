import { findRoot } from '../fit/brent';

/** A cycle is found to this much [days]. */
const CYCLE_TOLERANCE = 1e-8;
/** Nothing is asked of cycles shorter than this: without an outage a cycle of no length costs without end [days]. */
const SHORTEST_DAYS = 1e-6;

/** What fouling costs from a day on: its rate [money/day], not falling, and its exact integral since that day [money]. */
export type Loss = { rateAt: (day: number) => number; until: (day: number) => number };

/** What one cycle of a unit costs; money in any one currency. Days count from where `loss` begins. */
export type CycleCost = {
  /** One cleaning [money]. */
  cleaningCost: number;
  /** Downtime of one cleaning [money]. */
  downtimeCost: number;
  /** Length of the outage for one cleaning [days]. */
  outageDays: number;
  /** Days of the cycle that have passed already, and what was lost on them [money]; 0 for a cycle yet to begin. */
  daysSoFar: number;
  lossSoFar: number;
  loss: Loss;
};

/** The day of least mean cost; null where later is always cheaper. */
export type OptimumCycle = { cycleDays: number | null; meanCost: number };

/**
 * Mean cost of a cycle that ends after so many days: (cleaning + downtime + loss so far + ∫ loss)/(cycle + outage).
 *
 * @param cost cleaning, downtime, outage, what has passed and what is to come
 * @param days until the cleaning [days], ≥ 0
 * @returns [money/day]; Infinity for a cycle of no length without outage
 * @range days ≥ 0
 * @source Ma & Epstein, Optimum cycles for falling rate processes, Can. J. Chem. Eng. 59 (1981) 631-633; Casado, Hydrocarbon Processing 69 (1990) no. 8, 71-76
 * @check tests/published/fouling-models.test.ts
 */
export function meanCycleCost(cost: CycleCost, days: number): number {
  const length = cost.daysSoFar + days + cost.outageDays;
  return length > 0 ? (fixedCost(cost) + cost.loss.until(days)) / length : Number.POSITIVE_INFINITY;
}

function fixedCost({ cleaningCost, downtimeCost, lossSoFar }: CycleCost): number {
  return cleaningCost + downtimeCost + lossSoFar;
}

/**
 * Day of least mean cost: the lowest of trial days, then the root of its derivative between that one's neighbours (the loss
 * rate equals the mean cost over the whole cycle). For a loss that grows evenly and no outage: √(2C/k).
 *
 * @param cost cleaning, downtime, outage, what has passed and what is to come
 * @param trialDays ascending [days], at least two, the last one the latest considered
 * @returns [days] and the mean cost there [money/day]; null (and the mean cost of the latest) where later is cheaper
 * @range loss rate not falling
 * @source Ma & Epstein, Can. J. Chem. Eng. 59 (1981) 631-633; Harris, Factory 10 (1913) 135-136 (square-root rule)
 * @check tests/published/fouling-models.test.ts
 */
export function optimumCycle(cost: CycleCost, trialDays: readonly number[]): OptimumCycle {
  const means = trialDays.map((days) => meanCycleCost(cost, days));
  const lowest = means.indexOf(Math.min(...means));
  if (lowest === trialDays.length - 1) return { cycleDays: null, meanCost: means[lowest]! };
  const slope = (days: number) =>
    cost.loss.rateAt(days) * (cost.daysSoFar + days + cost.outageDays) -
    fixedCost(cost) -
    cost.loss.until(days);
  const [from, to] = [trialDays[Math.max(0, lowest - 1)]!, trialDays[lowest + 1]!];
  const root = findRoot(slope, from, to, { tolerance: CYCLE_TOLERANCE });
  // No root: the loss rate was above the mean cost from the first trial on.
  const cycleDays = Number.isNaN(root) ? trialDays[lowest]! : root;
  return { cycleDays, meanCost: meanCycleCost(cost, cycleDays) };
}

/**
 * Days whose mean cost is at most a share above the least: how little a month early or late costs.
 *
 * @param cost cleaning, downtime, outage, what has passed and what is to come
 * @param optimum its optimum
 * @param options share above the least mean cost [-], > 0; latestDays considered [days]
 * @returns from and to [days]; to is null beyond the latest; null without an optimum
 * @range loss rate not falling
 * @source root of the mean cost of Ma & Epstein, Can. J. Chem. Eng. 59 (1981) 631-633
 * @check tests/published/fouling-models.test.ts
 */
export function nearOptimumCycles(
  cost: CycleCost,
  { cycleDays, meanCost }: OptimumCycle,
  { share, latestDays }: { share: number; latestDays: number },
): { from: number; to: number | null } | null {
  if (cycleDays === null) return null;
  const excess = (days: number) => meanCycleCost(cost, days) - (1 + share) * meanCost;
  const tolerance = CYCLE_TOLERANCE;
  const from = excess(SHORTEST_DAYS) > 0 ? findRoot(excess, SHORTEST_DAYS, cycleDays, { tolerance }) : 0;
  const to = excess(latestDays) > 0 ? findRoot(excess, cycleDays, latestDays, { tolerance }) : null;
  return { from, to };
}
