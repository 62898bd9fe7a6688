import type { PlanProblem, Schedule } from './plan-problem';
import { HOURS_TOLERANCE, overlap, stretchedHours } from './room';
import { alongPath, MEASURES, type Measure, type UnitArcs } from './unit-arcs';

/** Days of lateness nearer than this are the same: a tenth of a second. */
export const LATENESS_TOLERANCE = 1e-6;

/** What a schedule is judged by [days, days, money]. */
export type Measures = Record<Measure, number>;

/**
 * Measures of a schedule, summed over its units.
 *
 * @param arcs     steps of each unit
 * @param schedule options of each unit
 * @returns days late, days until overdue units are cleaned, money
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function measureSchedule(arcs: readonly UnitArcs[], schedule: Schedule): Measures {
  const measures: Measures = { hardLate: 0, softLate: 0, money: 0 };
  schedule.forEach((options, unit) => {
    for (const measure of MEASURES) {
      measures[measure] += alongPath(arcs[unit]!.width, arcs[unit]![measure], options);
    }
  });
  return measures;
}

/**
 * Whether one schedule is better than another: less late, then overdue units earlier, then cheaper.
 *
 * @param a measures of the one
 * @param b measures of the other
 * @returns true where a is better by more than rounding
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
function isBetter(a: Measures, b: Measures): boolean {
  for (const measure of ['hardLate', 'softLate'] as const) {
    if (a[measure] < b[measure] - LATENESS_TOLERANCE) return true;
    if (a[measure] > b[measure] + LATENESS_TOLERANCE) return false;
  }
  return a.money < b.money;
}

/**
 * Whether a schedule keeps to the crews and the pairs, as far as the locked cleanings leave them to be kept.
 *
 * @param problem  pools and pairs
 * @param schedule options of each unit
 * @returns true where it does
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function keepsToRoom(problem: PlanProblem, schedule: Schedule): boolean {
  const left = stretchedHours(problem);
  schedule.forEach((options, unit) => {
    for (const option of options) {
      for (const { pool, hours } of problem.units[unit]!.options[option]!.crew) left[pool]! -= hours;
    }
  });
  if (left.some((hours) => hours < -HOURS_TOLERANCE)) return false;
  return problem.notTogether.every(([a, b]) =>
    schedule[a]!.every((mine) => schedule[b]!.every((theirs) => mayMeet(problem, [a, mine], [b, theirs]))),
  );
}

function mayMeet({ units }: PlanProblem, a: [number, number], b: [number, number]): boolean {
  const [one, other] = [a, b].map(([unit, option]) => units[unit]!.options[option]!);
  const areLocked = [a, b].every(([unit, option]) => units[unit]!.locked.includes(option));
  return areLocked || !overlap(one!, other!);
}

/**
 * The best of several schedules.
 *
 * @param arcs      steps of each unit
 * @param schedules at least one, each within crews and pairs
 * @returns the one that is least late, then cheapest
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function bestOf(arcs: readonly UnitArcs[], schedules: readonly Schedule[]): Schedule {
  return schedules.reduce((best, schedule) =>
    isBetter(measureSchedule(arcs, schedule), measureSchedule(arcs, best)) ? schedule : best,
  );
}
