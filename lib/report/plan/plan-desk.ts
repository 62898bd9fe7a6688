import { makeProblem } from '@/lib/core/plan/make-problem';
import type { PlanInput } from '@/lib/core/plan/plan-input';
import type { CleaningOption, PlanProblem, Schedule } from '@/lib/core/plan/plan-problem';
import { isoInZone } from '@/lib/time/local-day';
import { instantOfMoment } from '@/lib/time/local-moment';

/** What a plan of one site is worked out from, as plain data that travels to the browser. */
export type DeskInput = { input: PlanInput; timeZone: string; currency: string };

/** A plan that another is compared with, and what it is called. */
export type ComparedPlan = { kind: 'solved' | 'accepted'; schedule: Schedule };

/** The same with every place a cleaning may take: what a planner moves cleanings about on; `compared`: what a draft began as. */
export type PlanDesk = DeskInput & { problem: PlanProblem; compared: ComparedPlan | null };

/** A cleaning in a plan: whose, and which of the unit's options. */
export type Spot = { unit: number; option: number };

export function openDesk(given: DeskInput): PlanDesk {
  return { ...given, problem: makeProblem(given.input), compared: null };
}

/** @throws RangeError for a unit or option that is not there */
export function optionAt({ problem }: PlanDesk, { unit, option }: Spot): CleaningOption {
  const found = problem.units[unit]?.options[option];
  if (found === undefined) throw new RangeError(`no option ${option} of unit ${unit}`);
  return found;
}

export function tagAt({ problem }: PlanDesk, unit: number): string {
  return problem.units[unit]!.tag;
}

/** When a cleaning starts, as requests state it. */
export function startInZone(desk: PlanDesk, spot: Spot): string {
  return isoInZone(instantOfMoment(optionAt(desk, spot).start, desk.timeZone), desk.timeZone);
}
