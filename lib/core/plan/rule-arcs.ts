import type { TurnArcs } from './place-in-turn';
import type { PlanProblem, PlanUnit, Schedule } from './plan-problem';
import type { UnitArcs } from './unit-arcs';

/** What a rule's steps are made from. */
export type RuleArcs = {
  problem: PlanProblem;
  steps: readonly UnitArcs[];
  /** Schedule whose first cleanings of overdue units are kept; null: as early as there is room. */
  overdueFirst: Schedule | null;
  /** Whether a limit may be passed, at a high price, to see what the rule would break. */
  allowsLate: boolean;
};

/** Each day late weighs more than anything a rule asks for [per day]. */
const LATE_WEIGHT = 1e6;
/** A cleaning outside an outage counts for so many in one. */
const ON_LINE_WEIGHT = 1.5;
/** A cleaning at the plan's end counts for less than one at its beginning by this: as late as the limit allows. */
const LATER_WEIGHT = 1e-3;
/** A day too early counts for so many too late: a rule cleans early only where it must. */
const EARLY_WEIGHT = 10;

/**
 * Steps of "all at the next outage": the first attempts want each outage in turn as the unit's first cleaning, the last takes
 * the fewest cleanings its limit allows.
 *
 * @param rules problem and steps
 * @returns steps of each unit and attempt
 * @range  any
 * @source common practice
 * @check  tests/core/plan/plain-rules.test.ts
 */
export function nextOutageArcs(rules: RuleArcs): TurnArcs {
  const { from, to, units } = rules.problem;
  const outages = units.map(({ options }) =>
    options.flatMap(({ outage }, option) => (outage === null ? [] : [option])),
  );
  return (unit, attempt) => {
    const first = outages[unit]![attempt] ?? null;
    if (attempt > outages[unit]!.length) return null;
    const { options } = units[unit]!;
    const arcs = ruleArcs(rules, unit, (_, column) => {
      if (column === options.length) return 0;
      const { outage, start } = options[column]!;
      return (outage === null ? ON_LINE_WEIGHT : 1) - (LATER_WEIGHT * (start - from)) / (to - from);
    });
    const { width } = rules.steps[unit]!;
    if (first !== null) {
      for (let column = 0; column < width; column++) {
        if (column !== first) arcs[column] = Number.POSITIVE_INFINITY;
      }
    }
    return { width, arcs };
  };
}

/**
 * Steps of "every N days", counted from the plan's first day and then from the end of each cleaning: days off the rule.
 *
 * @param rules problem and steps
 * @param days  the interval
 * @returns steps of each unit
 * @range  days > 0
 * @source common practice
 * @check  tests/core/plan/plain-rules.test.ts
 */
export function fixedIntervalArcs(rules: RuleArcs, days: number): TurnArcs {
  const { from, to, units } = rules.problem;
  return (unit, attempt) => {
    if (attempt > 0) return null;
    const { options } = units[unit]!;
    const arcs = ruleArcs(rules, unit, (row, column) => {
      const due = (row === 0 ? from : options[row - 1]!.end) + days;
      if (column === options.length) return Math.max(0, to - due);
      const off = options[column]!.start - due;
      return off >= 0 ? off : -off * EARLY_WEIGHT;
    });
    return { width: rules.steps[unit]!.width, arcs };
  };
}

function ruleArcs(
  { problem, steps, overdueFirst, allowsLate }: RuleArcs,
  unit: number,
  cost: (row: number, column: number) => number,
): Float64Array {
  const { width, hardLate, softLate } = steps[unit]!;
  const kept = keptFirst(problem.units[unit]!, overdueFirst?.[unit]);
  const arcs = new Float64Array(width * width).fill(Number.POSITIVE_INFINITY);
  for (let row = 0; row < width; row++) {
    for (let column = row; column < width; column++) {
      const at = row * width + column;
      const late = hardLate[at]!;
      if (late === Number.POSITIVE_INFINITY || (late > 0 && !allowsLate)) continue;
      if (row > 0 || kept === null || column === kept) {
        arcs[at] = cost(row, column) + LATE_WEIGHT * (late + softLate[at]!);
      }
    }
  }
  return arcs;
}

function keptFirst(unit: PlanUnit, options: readonly number[] | undefined): number | null {
  return unit.isOverdue ? (options?.[0] ?? null) : null;
}
