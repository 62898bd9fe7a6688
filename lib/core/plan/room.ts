import type { CleaningOption, PlanProblem } from './plan-problem';

/** Crew hours may be overrun by this much [h]: rounding. */
export const HOURS_TOLERANCE = 1e-6;

/** What is left of the crews, and who is out when, while units are placed one after another. */
export type Room = {
  /** Whether an option of a unit can be added to what is there. A locked one always can: it must stay. */
  fits: (unit: number, option: number) => boolean;
  add: (unit: number, options: readonly number[]) => void;
  remove: (unit: number, options: readonly number[]) => void;
};

/**
 * Hours of each pool, stretched where the locked cleanings alone need more: nothing can be done about those.
 *
 * @param problem pools and locked cleanings
 * @returns hours of each pool [h]
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function stretchedHours({ pools, units }: PlanProblem): Float64Array {
  const locked = new Float64Array(pools.length);
  for (const unit of units) {
    for (const option of unit.locked) {
      for (const { pool, hours } of unit.options[option]!.crew) locked[pool]! += hours;
    }
  }
  return Float64Array.from(pools, ({ hours }, pool) => Math.max(hours, locked[pool]!));
}

/**
 * Whether two cleanings are out at the same time for longer than an instant.
 *
 * @param a one cleaning
 * @param b another
 * @returns true where they overlap
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/price-schedule.test.ts
 */
export function overlap(a: CleaningOption, b: CleaningOption): boolean {
  return Math.min(a.end, b.end) > Math.max(a.start, b.start);
}

/**
 * Partners of each unit: those that must not be out with it.
 *
 * @param problem its pairs
 * @returns indexes for each unit
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function partnersOf({ units, notTogether }: PlanProblem): number[][] {
  const partners: number[][] = units.map(() => []);
  for (const [a, b] of notTogether) {
    partners[a]!.push(b);
    partners[b]!.push(a);
  }
  return partners;
}

/**
 * A room with nothing in it.
 *
 * @param problem pools, pairs and locked cleanings
 * @returns room; add the locked cleanings before the rest is placed
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function makeRoom(problem: PlanProblem): Room {
  const { units } = problem;
  const left = stretchedHours(problem);
  const partners = partnersOf(problem);
  const placed: Set<number>[] = units.map(() => new Set());
  const change = (unit: number, options: readonly number[], sign: number) => {
    for (const option of options) {
      for (const { pool, hours } of units[unit]!.options[option]!.crew) left[pool]! -= sign * hours;
      if (sign > 0) placed[unit]!.add(option);
      else placed[unit]!.delete(option);
    }
  };
  return {
    fits: (unit, option) => {
      const { options, locked } = units[unit]!;
      if (locked.includes(option)) return true;
      const wanted = options[option]!;
      if (wanted.crew.some(({ pool, hours }) => hours > left[pool]! + HOURS_TOLERANCE)) return false;
      return partners[unit]!.every((other) =>
        [...placed[other]!].every((theirs) => !overlap(units[other]!.options[theirs]!, wanted)),
      );
    },
    add: (unit, options) => change(unit, options, 1),
    remove: (unit, options) => change(unit, options, -1),
  };
}
