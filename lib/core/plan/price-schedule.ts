import { findClashes } from './find-clashes';
import { LATENESS_TOLERANCE } from './measure-schedule';
import type { Clash, PlanCost, PlanProblem, PlanUnit, Schedule } from './plan-problem';
import { isFirstOfOverdue } from './unit-arcs';

/** Why a cleaning is in a schedule: it must stay, the unit is over its limit, its limit asks for it, or it pays. */
export type CleaningReason = 'locked' | 'over-limit' | 'limit' | 'pays';

/** One cleaning of a schedule, by index of the unit and of its option. */
export type PricedCleaning = {
  unit: number;
  option: number;
  /** Cleaning and downtime [money]. */
  cost: number;
  /** Loss over the rest of the plan without this one cleaning less the loss with it [money]. */
  saves: number;
  reason: CleaningReason;
  isLocked: boolean;
  /** Day before which it must start at the plan's confidence; null: no limit asks for it. */
  cleanBefore: number | null;
  daysLate: number;
};

/** What a schedule costs, cleaning by cleaning, and the constraints it breaks. */
export type PricedSchedule = { cost: PlanCost; cleanings: PricedCleaning[]; clashes: Clash[] };

/**
 * What a schedule costs and breaks. Quick enough to be worked out anew at each move of a cleaning.
 *
 * @param problem  units with their options and losses
 * @param schedule options of each unit, ascending; where two of one unit overlap, nothing is lost between them
 * @returns cost [money], cleanings in order of unit and start, and every constraint that is broken
 * @range  any schedule
 * @source none: sum of the problem's costs
 * @check  tests/core/plan/price-schedule.test.ts
 */
export function priceSchedule(problem: PlanProblem, schedule: Schedule): PricedSchedule {
  const cleanings = schedule.flatMap((options, unit) =>
    options.map((_, at) => priceCleaning(problem.units[unit]!, { unit, options, at })),
  );
  return { cost: costOf(problem, schedule), cleanings, clashes: findClashes(problem, schedule) };
}

/**
 * What a schedule costs.
 *
 * @param problem  units with their options and losses
 * @param schedule options of each unit, ascending
 * @returns cleaning, downtime, loss and their sum [money]
 * @range  any schedule
 * @source none: sum of the problem's costs
 * @check  tests/core/plan/price-schedule.test.ts
 */
export function costOf(problem: PlanProblem, schedule: Schedule): PlanCost {
  let cleaning = 0;
  let downtime = 0;
  let loss = 0;
  schedule.forEach((options, index) => {
    const unit = problem.units[index]!;
    let row = 0;
    for (const option of options) {
      cleaning += unit.options[option]!.cost;
      downtime += unit.options[option]!.downtime;
      loss += lossOf(unit, row, option);
      row = option + 1;
    }
    loss += lossOf(unit, row, unit.options.length);
  });
  return { cleaning, downtime, loss, total: cleaning + downtime + loss };
}

function priceCleaning(
  unit: PlanUnit,
  { unit: index, options, at }: { unit: number; options: readonly number[]; at: number },
): PricedCleaning {
  const option = options[at]!;
  const row = at === 0 ? 0 : options[at - 1]! + 1;
  const next = options[at + 1] ?? unit.options.length;
  const { cost, downtime } = unit.options[option]!;
  const isLocked = unit.locked.includes(option);
  const isOverdue = isFirstOfOverdue(unit, row, option);
  const isAskedFor = late(unit, row, next) > late(unit, option + 1, next) + LATENESS_TOLERANCE;
  return {
    unit: index,
    option,
    cost: cost + downtime,
    saves: lossOf(unit, row, next) - lossOf(unit, row, option) - lossOf(unit, option + 1, next),
    reason: isLocked ? 'locked' : isOverdue ? 'over-limit' : isAskedFor ? 'limit' : 'pays',
    isLocked,
    cleanBefore: latestStart(unit, row),
    daysLate: late(unit, row, option),
  };
}

function latestStart(unit: PlanUnit, row: number): number | null {
  if (row === 0) return unit.deadline;
  return unit.life === null ? null : unit.options[row - 1]!.end + unit.life;
}

function lossOf(unit: PlanUnit, row: number, column: number): number {
  return finite(unit.losses[row * (unit.options.length + 1) + column]!);
}

function late(unit: PlanUnit, row: number, column: number): number {
  return finite(unit.lateness[row * (unit.options.length + 1) + column]!);
}

/** Between two cleanings that overlap there is nothing. */
function finite(value: number): number {
  return Number.isNaN(value) ? 0 : value;
}
