import { findClashes } from '@/lib/core/plan/find-clashes';
import type { PlanProblem, Schedule } from '@/lib/core/plan/plan-problem';
import { countOf } from '@/lib/report/format/words';
import type { ComparedPlan } from './plan-desk';
import { momentInWords } from './plan-words';

/** A unit that is over its limit already and is made to wait for its cleaning. */
export type OverdueWait = { unit: number; words: string };

/** Waits nearer than this are the same [days]: a change of the clocks is an hour. */
const SAME_WAIT = 0.1;

/**
 * Units over their limit whose first cleaning comes later than in a plan they are compared with; where that does not clean
 * them, or there is none, later than their earliest place. Nothing else tells: they cannot be in time anywhere.
 */
export function overdueWaits(
  problem: PlanProblem,
  schedule: Schedule,
  compared: ComparedPlan | null,
): OverdueWait[] {
  return problem.units.flatMap(({ tag, options, isOverdue }, unit): OverdueWait[] => {
    const first = schedule[unit]![0];
    if (!isOverdue || first === undefined) return [];
    const other = compared?.schedule[unit]?.[0];
    const waits = options[first]!.start - options[other ?? 0]!.start;
    if (waits < SAME_WAIT) return [];
    const than = other === undefined ? 'at its earliest place' : `in the ${compared!.kind} plan`;
    return [{ unit, words: waitInWords(tag, waits, `than ${than}`) }];
  });
}

/**
 * Units over their limit for whose first cleaning there is an earlier place in the schedule as it stands, which breaks nothing.
 * One that waits because crews or other units leave it no room is not among them: the schedule forces that.
 */
export function needlessWaits(problem: PlanProblem, schedule: Schedule): OverdueWait[] {
  return problem.units.flatMap(({ tag, options, isOverdue }, unit): OverdueWait[] => {
    const first = schedule[unit]![0];
    if (!isOverdue || first === undefined) return [];
    const free = options.findIndex(
      (_, option) => option < first && breaksNothing(problem, schedule, { unit, option }),
    );
    if (free === -1) return [];
    const { start } = options[free]!;
    const waits = options[first]!.start - start;
    if (waits < SAME_WAIT) return [];
    const why = `than it must: there is room for it on ${momentInWords(start)}`;
    return [{ unit, words: waitInWords(tag, waits, why) }];
  });
}

function breaksNothing(
  problem: PlanProblem,
  schedule: Schedule,
  { unit, option }: { unit: number; option: number },
): boolean {
  const moved = schedule.with(unit, [option, ...schedule[unit]!.slice(1)]);
  return !findClashes(problem, moved).some(({ units }) => units.includes(unit));
}

function waitInWords(tag: string, days: number, than: string): string {
  return `${tag} is over its limit and would wait ${waitLength(days)} longer ${than}`;
}

/** Whole days; below one the hours. */
function waitLength(days: number): string {
  return days < 1 ? countOf(Math.round(days * 24), 'hour') : countOf(Math.round(days), 'day');
}
