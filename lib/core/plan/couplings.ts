import type { CleaningOption, PlanProblem } from './plan-problem';
import { HOURS_TOLERANCE, stretchedHours } from './room';

/** What ties the units together: rows Σ value ≤ upper over the options chosen. */
export type Couplings = {
  uppers: number[];
  /** Entries of each option of each unit. */
  entries: { row: number; value: number }[][][];
};

/**
 * Rows of the crews that can be short, and of the pairs that must not be out together: for each pair one at every start of an
 * option of either, over the options that are out at that instant. Two overlap just where the later start is inside the other.
 *
 * @param problem pools, pairs and locked cleanings; both give way where locked cleanings alone break them
 * @returns rows and the options' entries in them
 * @range  any
 * @source clique inequalities of an interval graph (Padberg, Mathematical Programming 5 (1973) 199-215)
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function makeCouplings(problem: PlanProblem): Couplings {
  const couplings: Couplings = {
    uppers: [],
    entries: problem.units.map(({ options }) => options.map(() => [])),
  };
  addCrews(problem, couplings);
  for (const pair of problem.notTogether) addPair(problem, couplings, pair);
  return couplings;
}

function addCrews(problem: PlanProblem, couplings: Couplings): void {
  const wanted = new Float64Array(problem.pools.length);
  for (const { options } of problem.units) {
    for (const { crew } of options) for (const { pool, hours } of crew) wanted[pool]! += hours;
  }
  const rowOf = new Map<number, number>();
  stretchedHours(problem).forEach((hours, pool) => {
    if (wanted[pool]! <= hours) return;
    rowOf.set(pool, couplings.uppers.length);
    // Hours of cleanings over two weeks are shares, with rounding.
    couplings.uppers.push(hours + HOURS_TOLERANCE / 2);
  });
  problem.units.forEach(({ options }, unit) => {
    options.forEach(({ crew }, option) => {
      for (const { pool, hours } of crew) {
        const row = rowOf.get(pool);
        if (row !== undefined) couplings.entries[unit]![option]!.push({ row, value: hours });
      }
    });
  });
}

function addPair(problem: PlanProblem, couplings: Couplings, pair: [number, number]): void {
  const options = pair.map((unit) => problem.units[unit]!.options);
  const starts = options.flat().filter(({ start, end }) => end > start);
  const known = new Set<string>();
  for (const instant of new Set(starts.map(({ start }) => start))) {
    const out = options.map((list) => indexesOutAt(list, instant));
    const key = out.map((indexes) => indexes.join()).join(';');
    if (out.some((indexes) => indexes.length === 0) || known.has(key)) continue;
    known.add(key);
    const row = couplings.uppers.length;
    let locked = 0;
    pair.forEach((unit, side) => {
      for (const option of out[side]!) {
        couplings.entries[unit]![option]!.push({ row, value: 1 });
        if (problem.units[unit]!.locked.includes(option)) locked += 1;
      }
    });
    couplings.uppers.push(Math.max(1, locked));
  }
}

function indexesOutAt(options: readonly CleaningOption[], instant: number): number[] {
  return options.flatMap(({ start, end }, index) => (start <= instant && instant < end ? [index] : []));
}
