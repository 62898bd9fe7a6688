import type { PlanRequest } from '@/lib/contract/plan';
import type { PlanUnit, Schedule } from '@/lib/core/plan/plan-problem';
import { localMoment } from '@/lib/time/local-moment';
import { type PlanDesk, type Spot, startInZone, tagAt } from './plan-desk';

/** A plan in the hands of a planner: options of each unit, ascending, and which of them stay where they are. */
export type PlanDraft = { schedule: Schedule; locked: number[][] };

/** A cleaning as results and requests name it. */
export type DatedCleaning = { tag: string; start: string; isLocked: boolean };

/** A start is the option's if it is this near [days]: clocks that change move it by an hour. */
const SAME_START = 0.1;

/** A draft of dated cleanings; `lost` are those for which there is no such place (the calendar has changed, or they are past). */
export function draftFrom(
  { problem, timeZone }: PlanDesk,
  cleanings: readonly DatedCleaning[],
): { draft: PlanDraft; lost: DatedCleaning[] } {
  const chosen = problem.units.map(() => new Map<number, boolean>());
  const lost = cleanings.filter((cleaning) => {
    const unit = problem.units.findIndex(({ tag }) => tag === cleaning.tag);
    const option = unit === -1 ? null : nearest(problem.units[unit]!, cleaning.start, timeZone);
    if (option === null) return true;
    const others = [...chosen[unit]!.keys(), option];
    if (!canFollow(problem.units[unit]!, others)) return true;
    chosen[unit]!.set(option, cleaning.isLocked);
    return false;
  });
  const draft = {
    schedule: chosen.map((options) => ascending([...options.keys()])),
    locked: chosen.map((options) =>
      ascending([...options].flatMap(([at, isLocked]) => (isLocked ? [at] : []))),
    ),
  };
  return { draft, lost };
}

function nearest({ options }: PlanUnit, start: string, timeZone: string): number | null {
  const moment = localMoment(Date.parse(start), timeZone);
  let best: number | null = null;
  for (const [at, option] of options.entries()) {
    const away = Math.abs(option.start - moment);
    if (away <= SAME_START && (best === null || away < Math.abs(options[best]!.start - moment))) best = at;
  }
  return best;
}

/** Whether a unit can be cleaned at all these options, each after the one before it has ended. */
export function canFollow({ options, losses }: PlanUnit, chosen: readonly number[]): boolean {
  const sorted = ascending(chosen);
  const width = options.length + 1;
  return sorted.every(
    (option, nth) => nth === 0 || !Number.isNaN(losses[(sorted[nth - 1]! + 1) * width + option]!),
  );
}

/** The draft with a cleaning at another option; a locked one stays locked there. */
export function moveCleaning(draft: PlanDraft, { unit, option }: Spot, to: number): PlanDraft {
  const replaced = (options: number[]) => ascending(options.map((each) => (each === option ? to : each)));
  return {
    schedule: draft.schedule.with(unit, replaced(draft.schedule[unit]!)),
    locked: draft.locked.with(unit, replaced(draft.locked[unit]!)),
  };
}

export function takeOut(draft: PlanDraft, { unit, option }: Spot): PlanDraft {
  const without = (options: number[]) => options.filter((each) => each !== option);
  return {
    schedule: draft.schedule.with(unit, without(draft.schedule[unit]!)),
    locked: draft.locked.with(unit, without(draft.locked[unit]!)),
  };
}

export function addCleaning(draft: PlanDraft, { unit, option }: Spot): PlanDraft {
  return { ...draft, schedule: draft.schedule.with(unit, ascending([...draft.schedule[unit]!, option])) };
}

/** Locks a cleaning where it is, or lets it go. */
export function toggleLock(draft: PlanDraft, { unit, option }: Spot): PlanDraft {
  const own = draft.locked[unit]!;
  const changed = own.includes(option) ? own.filter((each) => each !== option) : ascending([...own, option]);
  return { ...draft, locked: draft.locked.with(unit, changed) };
}

/** The next option before (−1) or after (1) a cleaning's own that it could take; null where there is none. */
export function nextOption(
  { problem }: PlanDesk,
  draft: PlanDraft,
  { spot, step }: { spot: Spot; step: -1 | 1 },
): number | null {
  const unit = problem.units[spot.unit]!;
  const others = draft.schedule[spot.unit]!.filter((each) => each !== spot.option);
  for (let at = spot.option + step; at >= 0 && at < unit.options.length; at += step)
    if (!others.includes(at) && canFollow(unit, [...others, at])) return at;
  return null;
}

/** Every cleaning of a draft, unit by unit. */
export function spotsOf({ schedule }: PlanDraft): Spot[] {
  return schedule.flatMap((options, unit) => options.map((option) => ({ unit, option })));
}

/** What of a draft stays where it is, as requests state it. */
export function lockedCleanings(desk: PlanDesk, { locked }: PlanDraft): PlanRequest['locked'] {
  return locked.flatMap((options, unit) =>
    options.map((option) => ({ tag: tagAt(desk, unit), start: startInZone(desk, { unit, option }) })),
  );
}

export function isSameSchedule(one: PlanDraft, other: PlanDraft): boolean {
  return one.schedule.every((options, unit) => {
    const own = other.schedule[unit]!;
    return options.length === own.length && options.every((option, nth) => option === own[nth]);
  });
}

function ascending(options: readonly number[]): number[] {
  return [...options].sort((a, b) => a - b);
}
