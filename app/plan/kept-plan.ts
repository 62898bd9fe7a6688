import type { PlanResult } from '@/lib/contract/plan';
import type { DatedCleaning, PlanDraft } from '@/lib/report/plan/draft-plan';
import { inputsMark } from '@/lib/report/plan/inputs-mark';
import type { PlanView } from '@/lib/report/plan/plan-view';

/** What a draft is compared with: the plan it began as. */
export type Base = {
  kind: 'solved' | 'accepted';
  draft: PlanDraft;
  result: PlanResult;
  lost: DatedCleaning[];
};

/** A plan in the planner's hands as this tab keeps it. */
export type KeptPlan = { base: Base | null; draft: PlanDraft; past: PlanDraft[] };

/** Where it is kept, and what it was made from. */
export type KeepingPlace = { key: string; mark: string };

/** What was kept: nothing, a plan, or one whose hand-made changes are lost because it was made from something else. */
export type Recalled = { kept: KeptPlan | null; isOutdated: boolean };

/** Raised whenever what is kept looks otherwise: what an older page kept is not brought back. */
const PAGE_VERSION = 1;
const NOTHING: Recalled = { kept: null, isOutdated: false };

export function keepingPlace({ site, desk, request }: PlanView): KeepingPlace {
  const { weeks, confidence } = request;
  return {
    key: `cleanby.plan.${PAGE_VERSION}.${site}.${weeks}.${confidence}`,
    mark: inputsMark(desk, request),
  };
}

export function recallPlan({ key, mark }: KeepingPlace): Recalled {
  try {
    const text = sessionStorage.getItem(key);
    if (text === null) return NOTHING;
    const { mark: own, ...kept } = JSON.parse(text) as KeptPlan & { mark: string };
    return own === mark ? { kept, isOutdated: false } : { kept: null, isOutdated: isByHand(kept) };
  } catch {
    return NOTHING;
  }
}

/** Keeps a plan until it is accepted or given up; one that is on the server anyway is not kept. */
export function keepPlan(place: KeepingPlace, plan: KeptPlan): void {
  const { base, draft, past } = plan;
  if (base?.kind !== 'solved' && !isByHand(plan)) forgetPlan(place);
  else {
    try {
      sessionStorage.setItem(place.key, JSON.stringify({ mark: place.mark, base, draft, past }));
    } catch {
      // A browser that keeps nothing loses the draft on leaving; the page works all the same.
    }
  }
}

export function forgetPlan({ key }: KeepingPlace): void {
  try {
    sessionStorage.removeItem(key);
  } catch {
    // Nothing was kept either.
  }
}

/** Whether something of it is a person's work: a change, or a lock that the solver worked around. */
export function isByHand({ base, draft, past }: KeptPlan): boolean {
  return past.length > 0 || (base?.kind === 'solved' && draft.locked.some((options) => options.length > 0));
}
