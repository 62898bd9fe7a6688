import { formatDay } from '@/lib/report/format/time';
import { cleanBefore } from './clean-before';
import type { PlanDraft } from './draft-plan';
import type { PlanDesk } from './plan-desk';

/** A day before which a unit must be cleaned, and whether the draft does so. */
export type RowLimit = {
  /** The limit itself, with the time of the day as fraction [local days]. */
  day: number;
  /** The whole day before which it must start; null where it is overdue. */
  before: number | null;
  /** `met`: cleaned before it; `late`: after it or not at all; `overdue`: it was past before the plan began. */
  state: 'met' | 'late' | 'overdue';
  /** How late it is cleaned [days]; null where it is not, or in time. */
  daysLate: number | null;
  words: string;
};

const OVERDUE = 'overdue: to be cleaned as early as possible';

/** The days before which a unit must be cleaned: the first as it stands, and one after each of its cleanings. */
export function rowLimits(desk: PlanDesk, draft: PlanDraft, unit: number): RowLimit[] {
  const { options, isOverdue, deadline, life } = desk.problem.units[unit]!;
  const { from, to } = desk.input;
  const cleanings = draft.schedule[unit]!.map((option) => options[option]!);
  const limits = [deadline, ...cleanings.map(({ end }) => (life === null ? null : end + life))];
  return limits.flatMap((day, nth): RowLimit[] => {
    if (day === null || day >= to) return [];
    const next = cleanings[nth]?.start ?? null;
    if (nth === 0 && isOverdue)
      return [{ day: Math.max(day, from), before: null, state: 'overdue', daysLate: null, words: OVERDUE }];
    const before = cleanBefore(day, next);
    const words = `clean before ${formatDay(before)}`;
    if (next !== null && next <= day) return [{ day, before, state: 'met', daysLate: null, words }];
    const daysLate = next === null ? null : next - day;
    return [{ day, before, state: 'late', daysLate, words: `${words}, and it is not` }];
  });
}

/** The first day that matters of a unit, to sort by: its first cleaning or its limit; Infinity without either. */
export function firstDay(desk: PlanDesk, draft: PlanDraft, unit: number): number {
  const option = draft.schedule[unit]![0];
  const start = option === undefined ? null : desk.problem.units[unit]!.options[option]!.start;
  return Math.min(
    start ?? Number.POSITIVE_INFINITY,
    desk.input.units[unit]!.deadline ?? Number.POSITIVE_INFINITY,
  );
}
