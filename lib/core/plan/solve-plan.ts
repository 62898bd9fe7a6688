import { findClashes } from './find-clashes';
import { bestOf } from './measure-schedule';
import { type Pace, paceOf, UNHURRIED } from './pace';
import { type PlainRules, plainRules } from './plain-rules';
import { isWithin, type LevelWork, leastLateness, levelOf, prepareLevels } from './plan-levels';
import type { Clash, PlanCost, PlanProblem, Schedule } from './plan-problem';
import { costOf } from './price-schedule';
import { type Found, searchLevel } from './search-level';
import type { SolveProgramme } from './solve-programme';

/** Gap at which the search stops unless asked otherwise [-]. */
const USUAL_GAP = 1e-4;
/** A plan this near to its bound is the best there is, within the solver's tolerances [-]. */
const OPTIMAL_GAP = 1e-6;
/** Share of the time left that the plain rules may take [-]. */
const RULES_SHARE = 0.4;

/** Share of the time kept for what a solve takes beyond its limit and for joining the answer [-]. */
const RESERVED_SHARE = 0.05;

export type SolveOptions = {
  /** [s] */
  timeLimit: number;
  /** Relative gap at which the search may stop [-]; not stated: 0.0001. */
  gap?: number;
  /** The clock, handed in: seconds since any instant. */
  elapsed: () => number;
  /** Lets others have their turn; not stated: in one go. */
  pause?: Pace['pause'];
  onProgress?: (progress: PlanProgress) => void;
};

export type PlanProgress = { cost: number | null; bound: number; gap: number | null };

export type PlanSolution = {
  status: 'optimal' | 'within-gap' | 'infeasible';
  /** The best found; for an infeasible problem the nearest to it. */
  schedule: Schedule;
  cost: PlanCost;
  /** No schedule that is late by no more costs less [money]. */
  bound: number;
  /** (cost − bound)/cost [-]; null for an infeasible problem. */
  gap: number | null;
  clashes: Clash[];
  isTimeUp: boolean;
  /** The plain rules on the same terms: overdue units first cleaned when the plan's first step had them. */
  compared: PlainRules;
};

/**
 * The plan of least cost among those that pass no limit, with overdue units as early as they can be (least sum of the days
 * until their first cleanings). Where there is none, the one of fewest days late, and what it breaks.
 *
 * @param problem units, pools and pairs
 * @param solve   solver of linear and integer programmes
 * @param options time limit [s], gap [-], clock
 * @returns schedule, cost [money], bound, gap, clashes
 * @range  any; without units an empty plan
 * @source Smaïli, Vassiliadis & Wilson, Energy & Fuels 15 (2001) 1038-1056 (the problem); column generation in `searchLevel`
 * @check  tests/core/plan/solve-plan.test.ts
 */
export async function solvePlan(
  problem: PlanProblem,
  solve: SolveProgramme,
  options: SolveOptions,
): Promise<PlanSolution> {
  const begun = options.elapsed();
  const left = () => options.timeLimit * (1 - RESERVED_SHARE) - (options.elapsed() - begun);
  const { gap = USUAL_GAP, pause = UNHURRIED.pause } = options;
  const work = await prepareLevels(problem, { solve, left, pause, gap });
  const lateness = await leastLateness(work);
  const compared = await plainRules(problem, lateness.schedule, paceOf(work.terms, RULES_SHARE));
  const rules = [compared.allAtNextOutage, compared.fixedInterval].map(({ schedule }) => schedule);
  const starts = [lateness.schedule, ...rules.filter((schedule) => schedule !== null)];
  const improved: Schedule[] = [];
  for (const schedule of starts) improved.push(await work.terms.improve(schedule, paceOf(work.terms)));
  await pause();
  const found = await searchLevel(levelOf(work, 'money', lateness), bestOf(work.steps, improved), {
    ...work.terms,
    isAllowed: (schedule) => isWithin(work, lateness, 'money', schedule),
    onProgress: (cost, bound) => options.onProgress?.({ cost, bound, gap: gapOf(cost, bound) }),
  });
  return conclude(work, { found, compared, isProven: lateness.isProven });
}

function conclude(
  { problem, terms }: LevelWork,
  { found, compared, isProven }: { found: Found; compared: PlainRules; isProven: boolean },
): PlanSolution {
  const { schedule, bound } = found;
  const cost = costOf(problem, schedule);
  const clashes = findClashes(problem, schedule);
  const gap = gapOf(cost.total, bound);
  const isInfeasible = clashes.length > 0;
  const isOptimal = isProven && gap !== null && gap <= OPTIMAL_GAP;
  return {
    status: isInfeasible ? 'infeasible' : isOptimal ? 'optimal' : 'within-gap',
    schedule,
    cost,
    bound,
    gap: isInfeasible ? null : gap,
    clashes,
    // Whether there is a plan at all stayed open for want of time; overdue units may not be proven to be as early as can be.
    isTimeUp:
      (isInfeasible && !isProven) || (!paceOf(terms).hasTime() && !(gap !== null && gap <= terms.gap)),
    compared,
  };
}

/** Share of the cost by which it may be above the least there is; null without a bound. */
function gapOf(cost: number, bound: number): number | null {
  if (!Number.isFinite(bound)) return null;
  if (cost <= bound) return 0;
  return cost === 0 ? null : (cost - bound) / Math.abs(cost);
}
