import { cheapestPath, type Path, type PricedArcs } from './cheapest-path';
import type { Couplings } from './couplings';
import type { Pace } from './pace';
import { alongPath } from './unit-arcs';

/** What is minimised over all schedules: the cost of each unit's steps, within rows that tie the units and budgets. */
export type Level = {
  widths: readonly number[];
  /** Cost of each unit's steps. */
  arcs: readonly Float64Array[];
  couplings: Couplings;
  /** Measures of which all units together may have only so much; null for a unit that has none of it whatever it does. */
  budgets: readonly { arcs: readonly (Float64Array | null)[]; upper: number }[];
};

/** The cheapest schedule of each unit at given prices of the rows, and the bound that follows. */
export type Pricing = { bound: number; paths: Path[] };

/**
 * Right sides of all rows: those that tie the units, then the budgets.
 *
 * @param level what is minimised
 * @returns upper bound of each row
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function uppersOf({ couplings, budgets }: Level): number[] {
  return [...couplings.uppers, ...budgets.map(({ upper }) => upper)];
}

/**
 * A unit's steps and options with what they take from the rows added at the rows' duals.
 *
 * @param level what is minimised
 * @param unit  index
 * @param duals of the rows, ≤ 0 [cost per unit of the row]
 * @returns steps and prices
 * @range  any
 * @source Dantzig & Wolfe, Operations Research 8 (1960) 101-111
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function pricedArcs(level: Level, unit: number, duals: Float64Array): PricedArcs {
  const width = level.widths[unit]!;
  const prices = new Float64Array(width - 1);
  level.couplings.entries[unit]!.forEach((entries, option) => {
    let price = 0;
    for (const { row, value } of entries) price -= duals[row]! * value;
    prices[option] = price;
  });
  let arcs = level.arcs[unit]!;
  level.budgets.forEach((budget, index) => {
    const dual = duals[level.couplings.uppers.length + index]!;
    const measured = budget.arcs[unit]!;
    if (dual === 0 || measured === null) return;
    arcs = arcs.map((cost, at) => (cost === Number.POSITIVE_INFINITY ? cost : cost - dual * measured[at]!));
  });
  return { width, arcs, prices };
}

/**
 * Lagrangian bound: no schedule costs less than every unit's cheapest at these prices, less what the rows give.
 *
 * @param level what is minimised; every unit has a schedule
 * @param duals of the rows, ≤ 0
 * @returns bound and the schedules that make it
 * @range  any
 * @source Geoffrion, Mathematical Programming Study 2 (1974) 82-114
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function priceOut(level: Level, duals: Float64Array): Pricing {
  let bound = 0;
  uppersOf(level).forEach((upper, row) => {
    if (duals[row] !== 0) bound += duals[row]! * upper;
  });
  const paths = level.widths.map((_, unit) => {
    const path = cheapestPath(pricedArcs(level, unit, duals));
    if (path === null) throw new RangeError(`unit ${unit} has no schedule at all`);
    bound += path.cost;
    return path;
  });
  return { bound, paths };
}

/** Steps of the ascent, and the share of the distance to the target that the first takes [-]. */
const ASCENT_STEPS = 160;
const FIRST_SHARE = 1;
/** Steps without a better bound after which the share is halved. */
const PATIENCE = 6;

/**
 * Good duals by ascent along the subgradient: cheap, and near enough for the solver to need few rounds.
 *
 * @param level   what is minimised
 * @param target  cost of a schedule that is known
 * @param during  `onPaths` is handed every unit's schedule at each step; `pace`: whether to go on
 * @returns best duals found
 * @range  any
 * @source Held, Wolfe & Crowder, Mathematical Programming 6 (1974) 62-88
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function ascend(
  level: Level,
  target: number,
  during: { onPaths: (paths: readonly Path[]) => void; pace: Pace },
): Promise<{ duals: Float64Array; bound: number }> {
  const uppers = uppersOf(level);
  let duals = new Float64Array(uppers.length);
  let best = { duals, bound: Number.NEGATIVE_INFINITY };
  let share = FIRST_SHARE;
  let idle = 0;
  for (let step = 0; step < ASCENT_STEPS; step++) {
    await during.pace.pause();
    const { bound, paths } = priceOut(level, duals);
    during.onPaths(paths);
    idle = bound > best.bound ? 0 : idle + 1;
    if (bound > best.bound) best = { duals, bound };
    if (idle === PATIENCE) {
      share /= 2;
      idle = 0;
      duals = best.duals;
    }
    const excess = excessOf(level, uppers, paths);
    let square = 0;
    excess.forEach((value, row) => {
      if (value > 0 || duals[row]! < 0) square += value * value;
    });
    if (square === 0 || bound >= target || !during.pace.hasTime()) break;
    const length = (share * (target - bound)) / square;
    duals = duals.map((dual, row) => Math.min(0, dual - length * excess[row]!));
  }
  return best;
}

function excessOf(level: Level, uppers: readonly number[], paths: readonly Path[]): Float64Array {
  const excess = Float64Array.from(uppers, (upper) => -upper);
  paths.forEach(({ options }, unit) => {
    for (const { row, value } of pathEntries(level, unit, options)) excess[row]! += value;
  });
  return excess;
}

/**
 * What one unit's schedule takes from each row.
 *
 * @param level   rows and budgets
 * @param unit    index
 * @param options chosen, ascending
 * @returns entries, each row at most once
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function pathEntries(
  { couplings, budgets, widths }: Level,
  unit: number,
  options: readonly number[],
): { row: number; value: number }[] {
  const sums = new Map<number, number>();
  for (const option of options) {
    for (const { row, value } of couplings.entries[unit]![option]!) {
      sums.set(row, (sums.get(row) ?? 0) + value);
    }
  }
  budgets.forEach(({ arcs }, index) => {
    const measured = arcs[unit]!;
    const value = measured === null ? 0 : alongPath(widths[unit]!, measured, options);
    if (value !== 0) sums.set(couplings.uppers.length + index, value);
  });
  return [...sums].map(([row, value]) => ({ row, value }));
}
