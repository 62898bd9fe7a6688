import { type Couplings, makeCouplings } from './couplings';
import { type Level, pricedArcs } from './lagrangian';
import { keepsToRoom, LATENESS_TOLERANCE, type Measures, measureSchedule } from './measure-schedule';
import { type Pace, paceOf } from './pace';
import { improveInTurn, placeInTurn } from './place-in-turn';
import type { PlanProblem, Schedule } from './plan-problem';
import { recreate } from './recreate';
import { type SearchTerms, searchLevel } from './search-level';
import { alongPath, MEASURES, type Measure, type UnitArcs, unitArcs } from './unit-arcs';

/** A day of a soft and of a hard lateness weighs more than all the money of the plan by this. */
const SOFT_WEIGHT = 1e3;
const HARD_WEIGHT = 1e6;
/** How often the order of the units is changed for one that finds no place. */
const TRIES = 30;
/** Share of the time left that each question about lateness may take [-]: whether there is a plan at all comes first. */
const LATENESS_SHARES = { hardLate: 0.6, softLate: 0.3 };
/** Share of the time that may go into a first schedule without the solver [-]. */
const FIRST_SHARE = 0.15;

/** What all the questions asked of one problem share. */
export type LevelWork = {
  problem: PlanProblem;
  steps: UnitArcs[];
  couplings: Couplings;
  /** Steps at one cost that puts lateness before money. */
  combined: { width: number; arcs: Float64Array }[];
  terms: SearchTerms;
};

/**
 * Gets a problem ready to be searched.
 *
 * @param problem units, pools and pairs
 * @param terms   solver, time left, gap
 * @returns steps, rows, and what a schedule must keep to
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function prepareLevels(
  problem: PlanProblem,
  terms: Pick<SearchTerms, 'solve' | 'left' | 'pause' | 'gap'>,
): Promise<LevelWork> {
  const steps: UnitArcs[] = [];
  for (let index = 0; index < problem.units.length; index++) {
    await terms.pause();
    steps.push(unitArcs(problem, index));
  }
  const combined = combine(steps);
  await terms.pause();
  const couplings = makeCouplings(problem);
  await terms.pause();
  return {
    problem,
    steps,
    couplings,
    combined,
    terms: {
      ...terms,
      isAllowed: (schedule) => keepsToRoom(problem, schedule),
      improve: (schedule, pace) => improveInTurn(problem, combined, { schedule, pace }),
      recreate: (schedule, pace) => recreate(problem, combined, { schedule, pace }),
      placeAt: (level, duals, pace) => placeAtPrices(problem, { level, duals, pace }),
      onProgress: () => {},
    },
  };
}

async function placeAtPrices(
  problem: PlanProblem,
  { level, duals, pace }: { level: Level; duals: Float64Array; pace: Pace },
): Promise<Schedule | null> {
  const arcs = problem.units.map((_, unit) => {
    const { width, arcs, prices } = pricedArcs(level, unit, duals);
    return { width, arcs: arcs.map((cost, at) => cost + (prices[at % width] ?? 0)) };
  });
  const order = problem.units
    .map((_, index) => index)
    .sort((a, b) => urgency(problem, a) - urgency(problem, b) || a - b);
  const turn = (unit: number, attempt: number) => (attempt === 0 ? arcs[unit]! : null);
  return (await placeInTurn(problem, { arcs: turn, order, tries: TRIES, pace })).schedule;
}

function combine(steps: readonly UnitArcs[]): { width: number; arcs: Float64Array }[] {
  let whole = 1;
  for (const { money } of steps) {
    let dearest = 0;
    for (const value of money) if (value < Number.POSITIVE_INFINITY) dearest = Math.max(dearest, value);
    whole += dearest;
  }
  return steps.map(({ width, money, hardLate, softLate }) => ({
    width,
    arcs: money.map((value, at) =>
      value === Number.POSITIVE_INFINITY
        ? value
        : value + whole * (SOFT_WEIGHT * softLate[at]! + HARD_WEIGHT * hardLate[at]!),
    ),
  }));
}

/**
 * A schedule within crews and pairs, made without a solver: units placed by urgency of their limits, then moved singly.
 *
 * @param work problem
 * @returns schedule; where none was found the locked cleanings alone
 * @range  any
 * @source none: start for the search
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function firstSchedule({ problem, combined, terms }: LevelWork): Promise<Schedule> {
  const pace = paceOf(terms, FIRST_SHARE);
  const order = problem.units
    .map((_, index) => index)
    .sort((a, b) => urgency(problem, a) - urgency(problem, b) || a - b);
  const arcs = (unit: number, attempt: number) => (attempt === 0 ? combined[unit]! : null);
  const { schedule } = await placeInTurn(problem, { arcs, order, tries: TRIES, pace });
  const start = schedule ?? problem.units.map(({ locked }) => [...locked]);
  return keepsToRoom(problem, start) ? terms.recreate(start, pace) : start;
}

function urgency({ units }: PlanProblem, index: number): number {
  const { isOverdue, deadline } = units[index]!;
  return isOverdue ? -Number.MAX_VALUE : (deadline ?? Number.MAX_VALUE);
}

/** A schedule with the least lateness there can be, as far as the time allowed to find out. */
export type Lateness = {
  schedule: Schedule;
  /** Sums of days that no schedule need exceed. */
  hardLate: number;
  softLate: number;
  /** Whether less was proven to be impossible. */
  isProven: boolean;
};

/**
 * The least lateness: first the days by which limits are passed, which is 0 where the plan is feasible, then the days until
 * overdue units are first cleaned. Neither is asked of the solver where the first schedule shows the answer.
 *
 * @param work problem
 * @returns schedule and its sums of days
 * @range  any
 * @source lexicographic order of aims (Ignizio, Goal Programming and Extensions, 1976)
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function leastLateness(work: LevelWork): Promise<Lateness> {
  let schedule = await firstSchedule(work);
  let isProven = true;
  const allowed: Measures = { hardLate: 0, softLate: 0, money: 0 };
  for (const measure of ['hardLate', 'softLate'] as const) {
    let days = measureSchedule(work.steps, schedule)[measure];
    if (days > LATENESS_TOLERANCE) {
      const level = levelOf(work, measure, allowed);
      const until = Math.max(0, work.terms.left() * (1 - LATENESS_SHARES[measure]));
      const found = await searchLevel(level, schedule, {
        ...work.terms,
        gap: 0,
        left: () => work.terms.left() - until,
        isAllowed: (candidate) => isWithin(work, allowed, measure, candidate),
      });
      schedule = found.schedule;
      days = found.cost;
      isProven &&= days - found.bound <= LATENESS_TOLERANCE;
    }
    allowed[measure] = days;
  }
  return { schedule, hardLate: allowed.hardLate, softLate: allowed.softLate, isProven };
}

/**
 * What is minimised, with the measures before it held to what was found.
 *
 * @param work    problem
 * @param measure to be minimised
 * @param allowed sums of days of the measures before it
 * @returns level for the search; without lateness the steps that would be late are closed
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function levelOf(
  { steps, couplings }: LevelWork,
  measure: Measure,
  allowed: Pick<Measures, 'hardLate' | 'softLate'>,
): Level {
  const before = MEASURES.slice(0, MEASURES.indexOf(measure)) as ('hardLate' | 'softLate')[];
  const closed = before.filter((earlier) => allowed[earlier] <= LATENESS_TOLERANCE);
  const held = before.filter((earlier) => allowed[earlier] > LATENESS_TOLERANCE);
  return {
    widths: steps.map(({ width }) => width),
    arcs: steps.map((unit) =>
      unit[measure].map((cost, at) =>
        closed.some((earlier) => unit[earlier][at]! > LATENESS_TOLERANCE) ? Number.POSITIVE_INFINITY : cost,
      ),
    ),
    couplings,
    budgets: held.map((earlier) => ({
      arcs: steps.map((unit) =>
        unit[earlier].some((days) => days > 0 && days < Number.POSITIVE_INFINITY) ? unit[earlier] : null,
      ),
      upper: allowed[earlier] + LATENESS_TOLERANCE,
    })),
  };
}

/**
 * Whether a schedule keeps to the room and to the days late that were found to be needed.
 *
 * @param work     problem
 * @param allowed  sums of days
 * @param measure  what is minimised: only the measures before it are held
 * @param schedule options of each unit
 * @returns true where it does
 * @range  any
 * @source none: definition
 * @check  tests/core/plan/solve-plan.test.ts
 */
export function isWithin(
  { problem, steps }: LevelWork,
  allowed: Pick<Measures, 'hardLate' | 'softLate'>,
  measure: Measure,
  schedule: Schedule,
): boolean {
  const before = MEASURES.slice(0, MEASURES.indexOf(measure)) as ('hardLate' | 'softLate')[];
  const isHeld = before.every((earlier) => {
    const days = schedule.reduce(
      (sum, options, unit) => sum + alongPath(steps[unit]!.width, steps[unit]![earlier], options),
      0,
    );
    return days <= allowed[earlier] + 2 * LATENESS_TOLERANCE;
  });
  return isHeld && keepsToRoom(problem, schedule);
}
