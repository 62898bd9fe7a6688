import { findClashes } from './find-clashes';
import { measureSchedule } from './measure-schedule';
import { type Pace, UNHURRIED } from './pace';
import { placeInTurn } from './place-in-turn';
import type { Clash, PlanCost, PlanProblem, PlanUnit, Schedule } from './plan-problem';
import { costOf } from './price-schedule';
import { fixedIntervalArcs, nextOutageArcs, type RuleArcs } from './rule-arcs';
import { type UnitArcs, unitArcs } from './unit-arcs';

const WEEK_DAYS = 7;
/** Intervals tried, in weeks: from monthly to yearly. */
const SHORTEST_WEEKS = 4;
const LONGEST_WEEKS = 52;
/** Fleets beyond this many units try only these: which intervals are tried must not hang on the clock. */
const MANY_UNITS = 60;
const COARSE_WEEKS = [4, 6, 8, 10, 13, 17, 21, 26, 34, 43, 52];
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
 * @param pace         lets others have their turn; what is tried does not hang on its clock, so that the same inputs give the
 *   same rules
 * @returns schedules, costs and what they would break
 * @range  any
 * @source common practice: the two rules planners use by hand
 * @check  tests/core/plan/plain-rules.test.ts
 */
export async function plainRules(
  problem: PlanProblem,
  overdueFirst: Schedule | null = null,
  pace: Pace = UNHURRIED,
): Promise<PlainRules> {
  const steps: UnitArcs[] = [];
  for (let index = 0; index < problem.units.length; index++) {
    await pace.pause();
    steps.push(unitArcs(problem, index));
  }
  const rules: Rules = {
    problem,
    steps,
    overdueFirst,
    allowsLate: false,
    pace: { ...pace, hasTime: UNHURRIED.hasTime },
  };
  const nothing = costOf(
    problem,
    problem.units.map(() => []),
  );
  return {
    allAtNextOutage: await follow(rules, nextOutageArcs),
    fixedInterval: await bestInterval(rules),
    noCleaning: { total: nothing.total },
  };
}

type Rules = RuleArcs & { pace: Pace };
type MakeArcs = (rules: RuleArcs) => ReturnType<typeof nextOutageArcs>;

async function follow(rules: Rules, arcsOf: MakeArcs): Promise<RuleResult> {
  const { problem, pace } = rules;
  const order = byUrgency(problem.units);
  const { schedule } = await placeInTurn(problem, { arcs: arcsOf(rules), order, tries: TRIES, pace });
  const clashes = schedule === null ? [] : findClashes(problem, schedule);
  if (schedule !== null && clashes.length === 0) {
    return { schedule, cost: costOf(problem, schedule), clashes };
  }
  const nearest = schedule ?? (await nearestSchedule(rules, arcsOf));
  return { schedule: null, cost: null, clashes: findClashes(problem, nearest) };
}

/** What following the rule would break: the same with lateness allowed, but dear. */
async function nearestSchedule(rules: Rules, arcsOf: MakeArcs): Promise<Schedule> {
  const { problem, pace } = rules;
  const arcs = arcsOf({ ...rules, allowsLate: true });
  const order = byUrgency(problem.units);
  const { schedule } = await placeInTurn(problem, { arcs, order, tries: 1, pace });
  return schedule ?? problem.units.map(({ locked }) => [...locked]);
}

/** Weeks of the intervals tried: none longer than the plan, but for the shortest. */
function intervalsTried({ from, to, units }: PlanProblem): number[] {
  const every = Array.from({ length: LONGEST_WEEKS - SHORTEST_WEEKS + 1 }, (_, k) => SHORTEST_WEEKS + k);
  const tried = units.length > MANY_UNITS ? COARSE_WEEKS : every;
  return tried.filter((weeks) => weeks === SHORTEST_WEEKS || weeks * WEEK_DAYS <= to - from);
}

async function bestInterval(rules: Rules): Promise<PlainRules['fixedInterval']> {
  let best: PlainRules['fixedInterval'] = { schedule: null, cost: null, clashes: [], days: null };
  let least = Number.POSITIVE_INFINITY;
  for (const weeks of intervalsTried(rules.problem)) {
    const days = weeks * WEEK_DAYS;
    const { schedule, cost } = await placeAt(rules, days);
    if (schedule !== null && cost !== null && cost.total < least) {
      best = { schedule, cost, clashes: [], days };
      least = cost.total;
    }
  }
  if (best.schedule !== null) return best;
  return { ...best, clashes: await leastLate(rules) };
}

async function placeAt(
  rules: Rules,
  days: number,
): Promise<{ schedule: Schedule | null; cost: PlanCost | null }> {
  const { problem, pace } = rules;
  const arcs = fixedIntervalArcs(rules, days);
  const order = byUrgency(problem.units);
  const { schedule } = await placeInTurn(problem, { arcs, order, tries: TRIES, pace });
  const isKept = schedule !== null && findClashes(problem, schedule).length === 0;
  return isKept ? { schedule, cost: costOf(problem, schedule) } : { schedule: null, cost: null };
}

/** Clashes of the shortest interval, which passes the fewest limits. */
async function leastLate(rules: Rules): Promise<Clash[]> {
  const days = SHORTEST_WEEKS * WEEK_DAYS;
  const tight = await nearestSchedule(rules, (late) => fixedIntervalArcs(late, days));
  const loose = await nearestSchedule(rules, nextOutageArcs);
  const [a, b] = [tight, loose].map((schedule) => measureSchedule(rules.steps, schedule).hardLate);
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
