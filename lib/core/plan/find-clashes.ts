import { LATENESS_TOLERANCE } from './measure-schedule';
import type { Clash, PlanProblem, PlanUnit, Schedule } from './plan-problem';
import { HOURS_TOLERANCE, overlap } from './room';
import { isFirstOfOverdue } from './unit-arcs';

/**
 * Every constraint that a schedule breaks, with the units that break it together.
 *
 * @param problem  pools, pairs, limits and locked cleanings
 * @param schedule options of each unit, ascending
 * @returns crews overrun, units out together that must not be (or one unit twice), limits passed, cleanings without a place
 * @range  any schedule
 * @source none: definition
 * @check  tests/core/plan/price-schedule.test.ts
 */
export function findClashes(problem: PlanProblem, schedule: Schedule): Clash[] {
  return [
    ...crewClashes(problem, schedule),
    ...pairClashes(problem, schedule),
    ...problem.units.flatMap((unit, index) => unitClashes(unit, index, schedule[index]!)),
    ...placeClashes(problem, schedule),
  ];
}

function crewClashes({ pools, units }: PlanProblem, schedule: Schedule): Clash[] {
  const needed = new Float64Array(pools.length);
  const users: Set<number>[] = pools.map(() => new Set());
  schedule.forEach((options, unit) => {
    for (const option of options) {
      for (const { pool, hours } of units[unit]!.options[option]!.crew) {
        needed[pool]! += hours;
        users[pool]!.add(unit);
      }
    }
  });
  return pools.flatMap(({ hours }, pool): Clash[] =>
    needed[pool]! > hours + HOURS_TOLERANCE
      ? [{ kind: 'crew', units: [...users[pool]!], pool, needed: needed[pool]!, available: hours }]
      : [],
  );
}

function pairClashes({ units, notTogether }: PlanProblem, schedule: Schedule): Clash[] {
  return notTogether.flatMap(([a, b]) =>
    schedule[a]!.flatMap((mine) =>
      schedule[b]!.flatMap((theirs): Clash[] => {
        const one = units[a]!.options[mine]!;
        const other = units[b]!.options[theirs]!;
        if (!overlap(one, other)) return [];
        const from = Math.max(one.start, other.start);
        return [{ kind: 'together', units: [a, b], from, to: Math.min(one.end, other.end) }];
      }),
    ),
  );
}

function unitClashes(unit: PlanUnit, index: number, options: readonly number[]): Clash[] {
  const width = unit.options.length + 1;
  const clashes: Clash[] = [];
  let daysLate = 0;
  let row = 0;
  for (const column of [...options, width - 1]) {
    const late = unit.lateness[row * width + column]!;
    if (Number.isNaN(late)) {
      const { end } = unit.options[row - 1]!;
      clashes.push({ kind: 'together', units: [index], from: unit.options[column]!.start, to: end });
    } else if (!isFirstOfOverdue(unit, row, column)) daysLate += late;
    row = column + 1;
  }
  if (daysLate > LATENESS_TOLERANCE) clashes.push({ kind: 'limit', units: [index], daysLate });
  return clashes;
}

/** Locked cleanings that are missing, and units that are late with nowhere to be cleaned at all. */
function placeClashes({ units, unplaced }: PlanProblem, schedule: Schedule): Clash[] {
  return units.flatMap((unit, index): Clash[] => {
    const isMissing = unit.locked.some((option) => !schedule[index]!.includes(option));
    const isNowhere = unit.options.length === 0 && unit.lateness[0]! > LATENESS_TOLERANCE;
    return isMissing || isNowhere || unplaced.includes(index) ? [{ kind: 'no-place', units: [index] }] : [];
  });
}
