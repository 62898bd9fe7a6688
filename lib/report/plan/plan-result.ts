import type { PlanCleaning, PlanRequest, PlanResult } from '@/lib/contract/plan';
import { LATENESS_TOLERANCE } from '@/lib/core/plan/measure-schedule';
import type { PlainRules, RuleResult } from '@/lib/core/plan/plain-rules';
import type { PlanInput } from '@/lib/core/plan/plan-input';
import type { PlanProblem } from '@/lib/core/plan/plan-problem';
import { type PricedCleaning, priceSchedule } from '@/lib/core/plan/price-schedule';
import type { PlanSolution } from '@/lib/core/plan/solve-plan';
import type { FleetRecords } from '@/lib/report/records';
import { isoDay } from '@/lib/time/calendar-day';
import { isoInZone } from '@/lib/time/local-day';
import { instantOfMoment } from '@/lib/time/local-moment';
import { clashInWords, toldClashes } from './clash-words';
import { cleanBefore } from './clean-before';
import { zoneOf } from './plan-input';
import type { LeftOut } from './planning';

const DAY_MS = 86_400_000;

/** A plan before it is put into dates: what it was made from, what came out, how the plain rules did. */
export type MadePlan = {
  request: PlanRequest;
  input: PlanInput;
  problem: PlanProblem;
  solution: Omit<PlanSolution, 'bound' | 'compared'> & { bound: number | null };
  rules: PlainRules;
  leftOut: LeftOut[];
  /** Time it took [s]. */
  seconds: number;
};

/** The contract's plan: dates of each site, reasons, clashes in words. */
export function planResult(fleet: FleetRecords, plan: MadePlan): PlanResult {
  const { request, input, problem, solution, rules } = plan;
  const { cleanings } = priceSchedule(problem, solution.schedule);
  const currencies = new Set(
    fleet.units
      .filter(({ record }) => input.units.some(({ tag }) => tag === record.tag))
      .map(({ record }) => record.site.currency),
  );
  const timeZone = zoneOf(fleet, request);
  return {
    status: solution.status,
    gap: solution.gap,
    asOf: isoInZone(fleet.now, timeZone),
    from: isoDay(input.from),
    to: isoDay(input.to),
    confidence: input.confidence,
    currency: currencies.size === 1 ? [...currencies][0]! : null,
    cost: solution.cost,
    bound: solution.bound,
    cleanings: cleanings
      .map((cleaning) => planCleaning(fleet, plan, cleaning))
      .sort((a, b) => Date.parse(a.start) - Date.parse(b.start) || a.tag.localeCompare(b.tag)),
    compared: {
      allAtNextOutage: ruleOf(plan, rules.allAtNextOutage),
      fixedInterval: { ...ruleOf(plan, rules.fixedInterval), days: rules.fixedInterval.days },
      noCleaning: { total: rules.noCleaning.total, beyondLimit: beyondLimit(problem) },
    },
    clashes: toldClashes(solution.clashes).map((clash) => ({
      tags: clash.units.map((unit) => problem.units[unit]!.tag),
      kind: clash.kind,
      constraint: clashInWords(clash, { input, problem }),
    })),
    leftOut: plan.leftOut,
    seconds: plan.seconds,
    isTimeUp: solution.isTimeUp,
  };
}

function planCleaning(
  fleet: FleetRecords,
  { input, problem, solution }: MadePlan,
  { unit, option, saves, reason }: PricedCleaning,
): PlanCleaning {
  const planned = problem.units[unit]!;
  const stated = input.units[unit]!;
  const { start, end, outage, cost, downtime } = planned.options[option]!;
  const { timeZone } = fleet.units.find(({ record }) => record.tag === planned.tag)!.record.site;
  const begin = instantOfMoment(start, timeZone);
  const nth = solution.schedule[unit]!.indexOf(option);
  const before = nth === 0 ? null : planned.options[solution.schedule[unit]![nth - 1]!]!;
  const deadline = before === null ? stated.deadline : stated.life === null ? null : before.end + stated.life;
  return {
    tag: planned.tag,
    start: isoInZone(begin, timeZone),
    end: isoInZone(begin + (end - start) * DAY_MS, timeZone),
    outage: outage === null ? null : input.outages[outage]!.name,
    reason,
    cost: cost + downtime,
    saves,
    method: stated.cleaning.method,
    crewHours: stated.cleaning.crewHours,
    isLocked: planned.locked.includes(option),
    cleanBefore: deadline === null ? null : isoDay(cleanBefore(deadline, start)),
    daysLate: deadline === null ? 0 : Math.max(0, start - deadline),
  };
}

/** Units that are late where none is cleaned up to the end of the plan. */
function beyondLimit({ units }: PlanProblem): number {
  return units.filter(({ options, lateness }) => lateness[options.length]! > LATENESS_TOLERANCE).length;
}

function ruleOf({ input, problem }: MadePlan, { schedule, cost, clashes }: RuleResult) {
  return {
    total: cost?.total ?? null,
    cost: cost === null ? null : { cleaning: cost.cleaning, downtime: cost.downtime, loss: cost.loss },
    cleanings: schedule?.reduce((sum, options) => sum + options.length, 0) ?? 0,
    broken: toldClashes(clashes).map((clash) => clashInWords(clash, { input, problem })),
  };
}
