import type { PlanRequest } from '@/lib/contract/plan';
import type { PlanInput } from '@/lib/core/plan/plan-input';
import type { AnalysedUnit, PlannedRecord } from '@/lib/report/records';

/** A stretch of time [ms]. */
export type Window = { from: number; to: number };

/** The site's outages, crew and pairs, what a plan would be made from, and the other open work of the site. */
export type MoveGiven = {
  unit: AnalysedUnit;
  request: PlanRequest;
  input: PlanInput | null;
  others: readonly PlannedRecord[];
};

/** An outage of the site, in instants [ms]; `crewHours` null: as many as needed. */
export type OutageSpan = Window & { name: string; crewHours: number | null };

export function liesIn(inner: Window, outer: Window): boolean {
  return outer.from <= inner.from && inner.to <= outer.to;
}
