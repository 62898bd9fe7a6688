import type { PlanProblem, PlanUnit } from './plan-problem';
import { HOURS_TOLERANCE } from './room';

/**
 * What a step from one cleaning of a unit to its next costs, by row and column as the unit's losses; Infinity where it cannot be
 * taken. The last column is the step to the end of the plan.
 */
export type UnitArcs = {
  /** Options + 1. */
  width: number;
  /** Loss until the next cleaning, that cleaning and its downtime [money]. */
  money: Float64Array;
  /** Days late that a plan must not have. */
  hardLate: Float64Array;
  /** Days until the first cleaning of an overdue unit, which can only be few. */
  softLate: Float64Array;
};

/** What a schedule is judged by, the first before the second before the third. */
export const MEASURES = ['hardLate', 'softLate', 'money'] as const;
export type Measure = (typeof MEASURES)[number];

/**
 * Steps of a unit: not past a locked cleaning, and not to an option that alone takes more crew than there is.
 *
 * @param problem its pools
 * @param index   of the unit
 * @returns steps; every one that is closed is Infinity in all three measures
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function unitArcs(problem: PlanProblem, index: number): UnitArcs {
  const unit = problem.units[index]!;
  const width = unit.options.length + 1;
  const arcs: UnitArcs = {
    width,
    money: new Float64Array(width * width).fill(Number.POSITIVE_INFINITY),
    hardLate: new Float64Array(width * width).fill(Number.POSITIVE_INFINITY),
    softLate: new Float64Array(width * width).fill(Number.POSITIVE_INFINITY),
  };
  const isOpen = unit.options.map((option, index) => {
    const hasCrew = option.crew.every(
      ({ pool, hours }) => hours <= problem.pools[pool]!.hours + HOURS_TOLERANCE,
    );
    return hasCrew || unit.locked.includes(index);
  });
  for (let row = 0; row < width; row++) {
    const nextLocked = unit.locked.find((option) => option >= row) ?? width - 1;
    for (let column = row; column <= nextLocked; column++) {
      const follows = !Number.isNaN(unit.losses[row * width + column]!);
      if (follows && isOpen[column] !== false) openArc(arcs, unit, { row, column });
    }
  }
  return arcs;
}

type Step = { row: number; column: number };

function openArc(arcs: UnitArcs, unit: PlanUnit, { row, column }: Step): void {
  const at = row * arcs.width + column;
  const option = unit.options[column];
  const isSoft = isFirstOfOverdue(unit, row, column);
  arcs.money[at] = unit.losses[at]! + (option === undefined ? 0 : option.cost + option.downtime);
  arcs.hardLate[at] = isSoft ? 0 : unit.lateness[at]!;
  arcs.softLate[at] = isSoft ? unit.lateness[at]! : 0;
}

/**
 * Whether a step ends in the first cleaning of a unit whose limit had been reached before the plan began: such a unit cannot
 * be in time, only early. Never to clean it is as wrong as for any other unit.
 *
 * @param unit   with its options
 * @param row    of the step
 * @param column of the step
 * @returns true where lateness is to be kept small but not forbidden
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function isFirstOfOverdue(unit: PlanUnit, row: number, column: number): boolean {
  return unit.isOverdue && row === 0 && column < unit.options.length;
}

/**
 * A measure of one unit's schedule: the sum over its steps.
 *
 * @param width   options + 1
 * @param values  the measure of each step
 * @param options chosen, ascending
 * @returns sum; Infinity where a step is closed
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function alongPath(width: number, values: Float64Array, options: readonly number[]): number {
  let sum = 0;
  let row = 0;
  for (const option of options) {
    sum += values[row * width + option]!;
    row = option + 1;
  }
  return sum + values[row * width + width - 1]!;
}
