import type { PlanRequest, PlanResult } from '@/lib/contract/plan';
import type { PlanInput } from '@/lib/core/plan/plan-input';
import type { FleetRecords, PlannedRecord, SiteRecord } from '@/lib/report/records';

/** A plan that somebody took on. */
export type AcceptedPlan = {
  id: number;
  /** [ms] */
  acceptedAt: number;
  acceptedBy: string;
  note: string | null;
  request: PlanRequest;
  result: PlanResult;
};

/** A unit that nothing can be planned for, and why. */
export type LeftOut = { tag: string; reason: string };

/** Everything the planner's page starts from. */
export type Planning = {
  sites: SiteRecord[];
  /** The site that is planned; null without any. */
  site: SiteRecord | null;
  /** That site's units with their results, and its outages. */
  fleet: FleetRecords;
  /** The stored calendar as a request. */
  request: PlanRequest;
  /** State of the calendar that this is: an edit of an older one is refused. */
  calendarRevision: number;
  /** What a plan would be made from; null where no unit can be planned. */
  input: PlanInput | null;
  leftOut: LeftOut[];
  accepted: AcceptedPlan | null;
  /** Open dated work. */
  planned: PlannedRecord[];
};
