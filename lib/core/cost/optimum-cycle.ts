import { findRoot } from '../fit/brent';

/** Longest cycle considered unless asked otherwise: ten years [days]. */
export const LONGEST_CYCLE_DAYS = 3650;
/** Trial lengths per cycle search, spaced evenly in the logarithm from 1/10,000 of the longest. */
const TRIALS = 240;
const SHORTEST_SHARE = 1e-4;
/** A cycle is found to this much [days]. */
const CYCLE_TOLERANCE = 1e-8;
/** Nodes and weights of Gauss–Legendre quadrature of order 5 on −1 to 1 (Abramowitz & Stegun, table 25.4). */
const GAUSS_NODES = [
  0, 0.538469310105683, -0.538469310105683, 0.906179845938664, -0.906179845938664,
] as const;
const GAUSS_WEIGHTS = [
  0.568888888888889, 0.478628670499366, 0.478628670499366, 0.236926885056189, 0.236926885056189,
] as const;
/** Halvings of a panel, and the relative change of its integral that ends them. */
const MOST_HALVINGS = 30;
const INTEGRAL_TOLERANCE = 1e-12;

/** What one cycle of a unit costs; money in any one currency. */
export type CycleCost = {
  /** One cleaning [money]. */
  cleaningCost: number;
  /** Downtime of one cleaning [money]. */
  downtimeCost: number;
  /** Length of the outage for one cleaning [days]. */
  outageDays: number;
  /** Loss rate at an age since the cleaning [money/day], not falling with age. */
  lossRate: (ageDays: number) => number;
};

/** The cycle of least mean cost; cycleDays null where longer is always cheaper. */
export type OptimumCycle = { cycleDays: number | null; meanCost: number };

/**
 * Mean cost of a cycle: (cleaning + downtime + ∫ loss)/(cycle + outage).
 *
 * @param cost cleaning, downtime, outage and loss rate
 * @param cycleDays length of the cycle without its outage [days], > 0
 * @returns [money/day]
 * @range cycleDays > 0
 * @source Ma & Epstein, Optimum cycles for falling rate processes, Can. J. Chem. Eng. 59 (1981) 631-633; Casado, Hydrocarbon Processing 69 (1990) no. 8, 71-76
 * @check tests/published/fouling-models.test.ts
 */
export function meanCycleCost(cost: CycleCost, cycleDays: number): number {
  const { cleaningCost, downtimeCost, outageDays, lossRate } = cost;
  return (cleaningCost + downtimeCost + integral(lossRate, 0, cycleDays)) / (cycleDays + outageDays);
}

/**
 * Cycle length of least mean cost: the lowest of trial lengths, then the root of its derivative between its
 * neighbours (the loss rate equals the mean cost over the whole cycle).
 *
 * @param cost cleaning, downtime, outage and loss rate
 * @param longestDays longest cycle considered [days]
 * @returns cycle [days] and its mean cost [money/day]; null (and the mean cost of the longest) where longer is cheaper
 * @range loss rate not falling with age
 * @source Ma & Epstein, Can. J. Chem. Eng. 59 (1981) 631-633
 * @check tests/published/fouling-models.test.ts
 */
export function optimumCycle(cost: CycleCost, longestDays: number = LONGEST_CYCLE_DAYS): OptimumCycle {
  const ages = Array.from({ length: TRIALS + 1 }, (_, i) => longestDays * SHORTEST_SHARE ** (1 - i / TRIALS));
  const losses = runningIntegrals(cost.lossRate, ages);
  const fixed = cost.cleaningCost + cost.downtimeCost;
  const means = ages.map((age, i) => (fixed + losses[i]!) / (age + cost.outageDays));
  const lowest = means.indexOf(Math.min(...means));
  if (lowest === TRIALS) return { cycleDays: null, meanCost: means[TRIALS]! };
  const from = Math.max(0, lowest - 1);
  const slope = (age: number) => {
    const loss = losses[from]! + integral(cost.lossRate, ages[from]!, age);
    return cost.lossRate(age) * (age + cost.outageDays) - fixed - loss;
  };
  const root = findRoot(slope, ages[from]!, ages[lowest + 1]!, { tolerance: CYCLE_TOLERANCE });
  const cycleDays = Number.isNaN(root) ? ages[lowest]! : root;
  return { cycleDays, meanCost: meanCycleCost(cost, cycleDays) };
}

/**
 * Cycle length of least mean cost for a loss that grows evenly with age: −tc + √(tc² + 2(C + D)/k).
 *
 * @param cost cleaning and downtime [money], outage [days], growth of the loss rate [money/day²], > 0
 * @returns cycle [days] and its mean cost [money/day]; with no outage √(2C/k) and √(2Ck)
 * @range lossGrowth > 0; cycleDays null where it is not
 * @source Harris, How many parts to make at once, Factory 10 (1913) 135-136 (square-root rule); Ma & Epstein 1981
 * @check tests/published/fouling-models.test.ts
 */
export function linearOptimumCycle(cost: Omit<CycleCost, 'lossRate'> & { lossGrowth: number }): OptimumCycle {
  const { cleaningCost, downtimeCost, outageDays, lossGrowth } = cost;
  if (!(lossGrowth > 0)) return { cycleDays: null, meanCost: 0 };
  const whole = Math.sqrt(outageDays ** 2 + (2 * (cleaningCost + downtimeCost)) / lossGrowth);
  // At the optimum the mean cost is the loss rate.
  return { cycleDays: whole - outageDays, meanCost: lossGrowth * (whole - outageDays) };
}

/**
 * Cycle lengths whose mean cost is at most a share above the least: how little a month early or late costs.
 *
 * @param cost cleaning, downtime, outage and loss rate
 * @param optimum its optimum, with a cycle
 * @param options share above the least mean cost [-], > 0; longestDays [days]
 * @returns from and to [days]; to is null beyond the longest; null without an optimum
 * @range loss rate not falling with age
 * @source root of the mean cost of Ma & Epstein, Can. J. Chem. Eng. 59 (1981) 631-633
 * @check tests/published/fouling-models.test.ts
 */
export function nearOptimumCycles(
  cost: CycleCost,
  optimum: OptimumCycle,
  options: { share: number; longestDays?: number },
): { from: number; to: number | null } | null {
  const { cycleDays, meanCost } = optimum;
  if (cycleDays === null) return null;
  const longest = options.longestDays ?? LONGEST_CYCLE_DAYS;
  const excess = (age: number) => meanCycleCost(cost, age) - (1 + options.share) * meanCost;
  const shortest = longest * SHORTEST_SHARE * SHORTEST_SHARE;
  const tolerance = CYCLE_TOLERANCE;
  const from = excess(shortest) > 0 ? findRoot(excess, shortest, cycleDays, { tolerance }) : 0;
  const to = excess(longest) > 0 ? findRoot(excess, cycleDays, longest, { tolerance }) : null;
  return { from, to };
}

/** Integrals from 0 to each of ascending ages. */
function runningIntegrals(f: (x: number) => number, ages: readonly number[]): number[] {
  let sum = 0;
  return ages.map((age, i) => {
    sum += integral(f, i === 0 ? 0 : ages[i - 1]!, age);
    return sum;
  });
}

/** Adaptive Gauss–Legendre quadrature: panels are halved until they agree with their halves. */
function integral(f: (x: number) => number, from: number, to: number): number {
  return refine(f, [from, to], gauss(f, from, to), MOST_HALVINGS);
}

function refine(
  f: (x: number) => number,
  [from, to]: [number, number],
  whole: number,
  depth: number,
): number {
  const middle = (from + to) / 2;
  const left = gauss(f, from, middle);
  const right = gauss(f, middle, to);
  const isSettled = Math.abs(left + right - whole) <= INTEGRAL_TOLERANCE * Math.abs(whole);
  if (depth === 0 || isSettled) return left + right;
  return refine(f, [from, middle], left, depth - 1) + refine(f, [middle, to], right, depth - 1);
}

function gauss(f: (x: number) => number, from: number, to: number): number {
  const centre = (from + to) / 2;
  const half = (to - from) / 2;
  let sum = 0;
  for (let i = 0; i < GAUSS_NODES.length; i++) sum += GAUSS_WEIGHTS[i]! * f(centre + half * GAUSS_NODES[i]!);
  return half * sum;
}
