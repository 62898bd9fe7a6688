import { findClashes } from './find-clashes';
import { measureSchedule } from './measure-schedule';
import { placeInTurn } from './place-in-turn';
import type { Clash, PlanCost, PlanProblem, PlanUnit, Schedule } from './plan-problem';
import { costOf } from './price-schedule';
import { fixedIntervalArcs, nextOutageArcs, type RuleArcs } from './rule-arcs';
import { type UnitArcs, unitArcs } from './unit-arcs';

const WEEK_DAYS = 7;
/** Intervals tried, in weeks: from monthly to yearly. */
const SHORTEST_WEEKS = 4;
const LONGEST_WEEKS = 52;
/** How often the order of the units is changed for one that finds no place. */
const TRIES = 6;

/** A plain rule, followed as nearly as the constraints allow; without a schedule and a cost where they do not. */
export type RuleResult = { schedule: Schedule | null; cost: PlanCost | null; clashes: Clash[] };

/** What the plan is compared with. */
export type PlainRules = {
  allAtNextOutage: RuleResult;
  /** With the one interval for the whole fleet that costs least [days]. */
  fixedInterval: RuleResult & { days: number | null };
  noCleaning: { total: number };
};

/**
 * The plain rules on the same inputs. "All at the next outage": each unit's first cleaning is in the first outage with room,
 * by urgency; one that cannot wait is cleaned as seldom as its limit allows. "Fixed interval": each unit as near to every N
 * days as there is room, earlier only where its limit asks for it. Locked cleanings stay.
 *
 * @param problem      units, pools and pairs
 * @param overdueFirst schedule whose first cleanings of overdue units the rules share; without it: as early as there is room
 * @param hasTime      asked before each further interval is tried, once one is known that can be kept
 * @returns schedules, costs and what they would break
 * @range  any
 * @source common practice: the two rules planners use by hand
 * @check  tests/core/plan/plain-rules.test.ts
 */
export function plainRules(
  problem: PlanProblem,
  overdueFirst: Schedule | null = null,
  hasTime: () => boolean = () => true,
): PlainRules {
  const steps = problem.units.map((_, index) => unitArcs(problem, index));
  const rules: RuleArcs = { problem, steps, overdueFirst, allowsLate: false };
  const nothing = costOf(
    problem,
    problem.units.map(() => []),
  );
  return {
    allAtNextOutage: follow(rules, nextOutageArcs),
    fixedInterval: bestInterval(rules, hasTime),
    noCleaning: { total: nothing.total },
  };
}

type MakeArcs = (rules: RuleArcs) => ReturnType<typeof nextOutageArcs>;

function follow(rules: RuleArcs, arcsOf: MakeArcs): RuleResult {
  const { problem } = rules;
  const order = byUrgency(problem.units);
  const { schedule } = placeInTurn(problem, { arcs: arcsOf(rules), order, tries: TRIES });
  const clashes = schedule === null ? [] : findClashes(problem, schedule);
  if (schedule !== null && clashes.length === 0) {
    return { schedule, cost: costOf(problem, schedule), clashes };
  }
  const nearest = schedule ?? nearestSchedule(rules, arcsOf);
  return { schedule: null, cost: null, clashes: findClashes(problem, nearest) };
}

/** What following the rule would break: the same with lateness allowed, but dear. */
function nearestSchedule(rules: RuleArcs, arcsOf: MakeArcs): Schedule {
  const { problem } = rules;
  const arcs = arcsOf({ ...rules, allowsLate: true });
  const order = byUrgency(problem.units);
  return (
    placeInTurn(problem, { arcs, order, tries: 1 }).schedule ?? problem.units.map(({ locked }) => [...locked])
  );
}

function bestInterval(rules: RuleArcs, hasTime: () => boolean): PlainRules['fixedInterval'] {
  const { problem, steps } = rules;
  const longest = Math.min(LONGEST_WEEKS, Math.floor((problem.to - problem.from) / WEEK_DAYS));
  let best: PlainRules['fixedInterval'] = { schedule: null, cost: null, clashes: [], days: null };
  let least = Number.POSITIVE_INFINITY;
  for (let weeks = SHORTEST_WEEKS; weeks <= Math.max(SHORTEST_WEEKS, longest); weeks++) {
    if (best.schedule !== null && !hasTime()) break;
    const days = weeks * WEEK_DAYS;
    const { schedule, cost } = placeAt(rules, days);
    if (schedule !== null && cost !== null && cost.total < least) {
      best = { schedule, cost, clashes: [], days };
      least = cost.total;
    }
  }
  if (best.schedule !== null) return best;
  return { ...best, clashes: leastLate(rules, steps) };
}

function placeAt(rules: RuleArcs, days: number): { schedule: Schedule | null; cost: PlanCost | null } {
  const { problem } = rules;
  const arcs = fixedIntervalArcs(rules, days);
  const { schedule } = placeInTurn(problem, { arcs, order: byUrgency(problem.units), tries: TRIES });
  const isKept = schedule !== null && findClashes(problem, schedule).length === 0;
  return isKept ? { schedule, cost: costOf(problem, schedule) } : { schedule: null, cost: null };
}

/** Clashes of the shortest interval, which passes the fewest limits. */
function leastLate(rules: RuleArcs, steps: readonly UnitArcs[]): Clash[] {
  const days = SHORTEST_WEEKS * WEEK_DAYS;
  const tight = nearestSchedule(rules, (late) => fixedIntervalArcs(late, days));
  const loose = nearestSchedule(rules, nextOutageArcs);
  const [a, b] = [tight, loose].map((schedule) => measureSchedule(steps, schedule).hardLate);
  return findClashes(rules.problem, a! <= b! ? tight : loose);
}

/** Overdue units first, then by deadline; those without one last. */
function byUrgency(units: readonly PlanUnit[]): number[] {
  const rank = ({ isOverdue, deadline }: PlanUnit) =>
    isOverdue ? Number.NEGATIVE_INFINITY : (deadline ?? Number.MAX_VALUE);
  return units
    .map((_, index) => index)
    .sort((a, b) => {
      const [one, other] = [rank(units[a]!), rank(units[b]!)];
      return one === other ? a - b : one - other;
    });
}
