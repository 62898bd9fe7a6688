import type { ChangeKind, Urgency } from '@/lib/contract/review';
import { isoDay } from '@/lib/time/calendar-day';
import type { UnitFacts } from './unit-facts';

/** One change of a unit, before it is put into words. */
export type Change = {
  kind: ChangeKind;
  urgency: Urgency;
  /** The same in every review that lists this change. */
  key: string;
  /** Day it happened on, or since when it holds; null where that cannot be said. */
  day: number | null;
};

/** A change scoped by the running cycle: a day that moves with every fit would lose the marks made on it. */
export function cycleKey(kind: ChangeKind, { now }: UnitFacts): string {
  return now.cycleStartDay === null ? `${kind}@record` : dayKey(kind, now.cycleStartDay);
}

/** A change that has a day of its own. */
export function dayKey(kind: ChangeKind, day: number): string {
  return `${kind}@${isoDay(day)}`;
}
