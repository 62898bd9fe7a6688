import type { Path } from './cheapest-path';
import { type ColumnPool, makeColumnPool } from './column-pool';
import { columnsWithin } from './columns-within';
import { ascend, type Level, pricedArcs, priceOut, uppersOf } from './lagrangian';
import { LEAST_TIME, type Pace, paceOf } from './pace';
import type { Schedule } from './plan-problem';
import type { SolveProgramme } from './solve-programme';
import { alongPath } from './unit-arcs';

/** Two costs nearer than this share of them are the same [-]: the solver's tolerances. */
const SAME_COST = 1e-9;
/** A column must be cheaper than its unit's price by this share of the whole cost to be worth adding [-]. */
const WORTH_ADDING = 1e-10;
/** Costs in the master programme are scaled so that the whole is about this. */
const SCALED_COST = 1e4;
const LEAST_SCALE = 1e-6;
/** Weight of the best duals so far against the solver's newest (Wentges 1997): it keeps them from swinging. */
const SMOOTHING = 0.6;
const MOST_ROUNDS = 200;
/** Share of the time left that may go into moving a few units at a time [-]. */
const RECREATE_SHARE = 0.5;
/** Share of the time left that the first integer programme may take [-]. */
const FIRST_SHARE = 0.5;
export type SearchTerms = {
  solve: SolveProgramme;
  /** Seconds left. */
  left: () => number;
  pause: Pace['pause'];
  /** Relative gap at which the search may stop [-]. */
  gap: number;
  /** Whether a schedule keeps to every row that is not in the level, too. */
  isAllowed: (schedule: Schedule) => boolean;
  /** A schedule at least as good, found by moving single units. */
  improve: (schedule: Schedule, pace: Pace) => Promise<Schedule>;
  /** A schedule at least as good, found by moving a few units at a time. */
  recreate: (schedule: Schedule, pace: Pace) => Promise<Schedule>;
  /** A schedule made by placing the units one after another at given prices of the rows; null where one found no place. */
  placeAt: (level: Level, duals: Float64Array, pace: Pace) => Promise<Schedule | null>;
  onProgress: (cost: number, bound: number) => void;
};

export type Found = { schedule: Schedule; cost: number; bound: number };

/**
 * The schedule of least cost: column generation for the bound, an integer programme over the columns for a schedule, and
 * where the two are apart one over every schedule of a unit whose reduced cost is within the gap, which holds the optimum.
 *
 * @param level     what is minimised
 * @param incumbent a schedule that keeps to the level's rows
 * @param terms     solver, time, gap
 * @returns best schedule, its cost and the bound below which none can be
 * @range  any
 * @source Barnhart et al., Operations Research 46 (1998) 316-329 (column generation); Baldacci, Christofides & Mingozzi,
 *   Mathematical Programming 115 (2008) 351-385 (enumeration of the columns within the gap); Wentges, International
 *   Transactions in Operational Research 4 (1997) 151-162 (smoothing)
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function searchLevel(level: Level, incumbent: Schedule, terms: SearchTerms): Promise<Found> {
  const search = startSearch(level, incumbent, terms);
  await generateColumns(search);
  if (!paceOf(terms).hasTime()) return foundBy(search);
  await search.offer((await terms.placeAt(level, search.state.duals, paceOf(terms))) ?? incumbent);
  if (!search.isDone()) {
    const pace = paceOf(terms, RECREATE_SHARE);
    await search.offer(await terms.recreate(search.state.best.schedule, pace));
  }
  if (!search.isDone()) await combineColumns(search, FIRST_SHARE);
  if (!search.isDone()) await closeGap(search);
  return foundBy(search);
}

function foundBy({ state: { best, bound } }: Search): Found {
  return { ...best, bound: Math.min(bound, best.cost) };
}

type Search = {
  level: Level;
  terms: SearchTerms;
  columns: ColumnPool;
  scale: number;
  state: {
    best: { schedule: Schedule; cost: number };
    bound: number;
    duals: Float64Array;
    pricedBound: number;
  };
  isDone: () => boolean;
  offer: (schedule: Schedule) => Promise<void>;
  raise: (bound: number) => void;
};

function startSearch(level: Level, incumbent: Schedule, terms: SearchTerms): Search {
  const costOf = (schedule: Schedule) =>
    schedule.reduce(
      (sum, options, unit) => sum + alongPath(level.widths[unit]!, level.arcs[unit]!, options),
      0,
    );
  const state: Search['state'] = {
    best: { schedule: incumbent, cost: costOf(incumbent) },
    bound: Number.NEGATIVE_INFINITY,
    pricedBound: Number.NEGATIVE_INFINITY,
    duals: new Float64Array(uppersOf(level).length),
  };
  const scale = Math.max(Math.abs(state.best.cost) / SCALED_COST, LEAST_SCALE);
  const columns = makeColumnPool(level, scale);
  incumbent.forEach((options, unit) => {
    columns.add(unit, options);
  });
  const isDone = () => {
    const { best, bound } = state;
    return best.cost - bound <= Math.max(terms.gap, SAME_COST) * Math.abs(best.cost) + SAME_COST;
  };
  const accept = (schedule: Schedule) => {
    const cost = costOf(schedule);
    if (!(cost < state.best.cost) || !terms.isAllowed(schedule)) return;
    state.best = { schedule, cost };
    schedule.forEach((options, unit) => {
      columns.add(unit, options);
    });
    terms.onProgress(cost, state.bound);
  };
  const offer = async (schedule: Schedule) => {
    accept(schedule);
    if (terms.isAllowed(schedule)) accept(await terms.improve(schedule, paceOf(terms)));
  };
  const raise = (bound: number) => {
    if (!(bound > state.bound)) return;
    state.bound = bound;
    terms.onProgress(state.best.cost, bound);
  };
  return { level, terms, columns, scale, state, isDone, offer, raise };
}

async function generateColumns(search: Search): Promise<void> {
  const { level, terms, columns, state, scale } = search;
  const addPaths = (paths: readonly Path[]) => {
    paths.forEach(({ options }, unit) => {
      columns.add(unit, options);
    });
  };
  const ascent = await ascend(level, state.best.cost, {
    onPaths: addPaths,
    pace: paceOf(terms),
  });
  keepDuals(search, ascent.duals, ascent.bound);
  for (let round = 0; round < MOST_ROUNDS && !search.isDone(); round++) {
    await terms.pause();
    if (terms.left() < LEAST_TIME) return;
    const { programme, dualsOf } = columns.master(false);
    const master = await terms.solve(programme, { timeLimit: terms.left(), gap: 0, start: null });
    if (master.duals === null || master.values === null) return;
    await search.offer(columns.scheduleOf(master.values));
    const isNew = addPriced(search, dualsOf(master.duals));
    // The master is solved when no schedule of any unit is cheaper than what its duals ask.
    if (!isNew || master.cost * scale - state.bound <= SAME_COST * Math.abs(state.best.cost)) return;
  }
}

/** Adds the schedules that the master's duals ask for; false where there are none. */
function addPriced(search: Search, newest: { rows: Float64Array; units: Float64Array }): boolean {
  const { level, columns, state } = search;
  const smoothed = newest.rows.map((dual, row) => SMOOTHING * state.duals[row]! + (1 - SMOOTHING) * dual);
  const worth = WORTH_ADDING * Math.abs(state.best.cost);
  const isAsked = ({ options }: Path, unit: number) => {
    const { width, arcs, prices } = pricedArcs(level, unit, newest.rows);
    const paid = options.reduce((sum, option) => sum + prices[option]!, alongPath(width, arcs, options));
    return paid < newest.units[unit]! - worth;
  };
  for (const duals of [smoothed, newest.rows]) {
    const { bound, paths } = priceOut(level, duals);
    keepDuals(search, duals, bound);
    const asked = paths.map(isAsked);
    const added = paths.map(({ options }, unit) => columns.add(unit, options));
    if (added.some((isNew, unit) => isNew && asked[unit])) return true;
  }
  return false;
}

function keepDuals({ state, raise }: Search, duals: Float64Array, bound: number): void {
  if (bound <= state.pricedBound) return;
  state.pricedBound = bound;
  state.duals = duals;
  raise(bound);
}

/** Solves the integer programme over the columns there are; its bound holds for these columns only. */
async function combineColumns(search: Search, share: number): Promise<number> {
  const { columns, terms, scale, state } = search;
  const start = columns.valuesOf(state.best.schedule);
  const { programme } = columns.master(true);
  await terms.pause();
  // Building the programme has taken time of its own.
  const timeLimit = terms.left() * share;
  if (timeLimit < LEAST_TIME) return Number.NEGATIVE_INFINITY;
  const solution = await terms.solve(programme, {
    timeLimit,
    gap: terms.gap / 2,
    start,
  });
  if (solution.values !== null) await search.offer(columns.scheduleOf(solution.values));
  return solution.bound * scale;
}

async function closeGap(search: Search): Promise<void> {
  const { level, state, terms, raise } = search;
  for (;;) {
    const { cost } = state.best;
    const base = state.pricedBound;
    const whole = cost - base + SAME_COST * Math.abs(cost);
    const reach = await columnsWithin(level, state.duals, { whole, pace: paceOf(terms) });
    if (reach === null) return;
    const closing: Search = { ...search, columns: makeColumnPool(level, search.scale) };
    state.best.schedule.forEach((options, unit) => {
      closing.columns.add(unit, options);
    });
    reach.paths.forEach((paths, unit) => {
      for (const { options } of paths) closing.columns.add(unit, options);
    });
    const bound = await combineColumns(closing, 1);
    // A schedule with a part that was left out costs at least the priced bound and what that part is beyond it.
    raise(Math.min(bound, reach.isWhole ? Number.POSITIVE_INFINITY : base + reach.slack));
    const hasGained = state.best.cost < cost;
    if (search.isDone() || reach.isWhole || !hasGained || terms.left() < LEAST_TIME) return;
  }
}
