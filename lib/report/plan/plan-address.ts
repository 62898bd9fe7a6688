import type { PlanRequest } from '@/lib/contract/plan';
import { USUAL_CONFIDENCE, USUAL_PLAN_WEEKS } from '@/lib/contract/plan-defaults';

/** Horizons and confidences the page offers. */
export const PLAN_WEEKS = [13, 26, 52, 78, 104] as const;
export const PLAN_CONFIDENCES = [0.5, 0.8, 0.9, 0.95] as const;
const PLAN_VIEWS = ['axis', 'table'] as const;

/** What of the planner's page lives in the address, so that a link shows the same plan; null: as the accepted plan has it. */
export type PlanAddress = {
  site: string | null;
  weeks: number | null;
  confidence: number | null;
  view: (typeof PLAN_VIEWS)[number];
};

type Given = Record<string, string | string[] | undefined>;

/** The address of search parameters; what cannot be read takes its default. */
export function readPlanAddress(given: Given): PlanAddress {
  return {
    site: first(given.site) || null,
    weeks: PLAN_WEEKS.find((weeks) => String(weeks) === first(given.weeks)) ?? null,
    confidence: PLAN_CONFIDENCES.find((share) => String(share) === first(given.confidence)) ?? null,
    view: PLAN_VIEWS.find((view) => view === first(given.view)) ?? 'axis',
  };
}

/** Search parameters with some of the address changed; others (`units`) are kept. */
export function writePlanAddress(change: Partial<PlanAddress>, kept: URLSearchParams): URLSearchParams {
  const written = new URLSearchParams(kept);
  for (const [name, value] of Object.entries(change))
    if (value === null || (name === 'view' && value === 'axis')) written.delete(name);
    else written.set(name, String(value));
  return written;
}

/** Horizon and confidence to plan with: the address first, then the accepted plan, then what is usual. */
export function planSettings(
  { weeks, confidence }: Pick<PlanAddress, 'weeks' | 'confidence'>,
  accepted: Pick<PlanRequest, 'weeks' | 'confidence'> | null,
): { weeks: number; confidence: number } {
  return {
    weeks: weeks ?? accepted?.weeks ?? USUAL_PLAN_WEEKS,
    confidence: confidence ?? accepted?.confidence ?? USUAL_CONFIDENCE,
  };
}

function first(value: string | string[] | undefined): string | undefined {
  return Array.isArray(value) ? value[0] : value;
}
