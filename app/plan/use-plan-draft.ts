'use client';

import { useCallback, useMemo, useState } from 'react';
import type { PlanResult } from '@/lib/contract/plan';
import { type DatedCleaning, draftFrom, isSameSchedule, type PlanDraft } from '@/lib/report/plan/draft-plan';
import { type DraftPrice, priceDraft } from '@/lib/report/plan/draft-price';
import type { PlanDesk, Spot } from '@/lib/report/plan/plan-desk';

/** What the draft is compared with: the plan it began as. */
export type Base = {
  kind: 'solved' | 'accepted';
  draft: PlanDraft;
  result: PlanResult;
  lost: DatedCleaning[];
};

type State = { base: Base | null; draft: PlanDraft; past: PlanDraft[]; selected: Spot | null };

/** Steps back that are kept. */
const MOST_PAST = 100;

export type DraftBoard = State & {
  price: DraftPrice;
  /** Price of the plan it began as; null before there is one. */
  basePrice: DraftPrice | null;
  isChanged: boolean;
  select: (spot: Spot | null) => void;
  /** Another draft, to be undone by `undo`. */
  change: (draft: PlanDraft, selected: Spot | null) => void;
  undo: () => void;
  /** Begins anew from a plan. */
  begin: (base: Base) => void;
};

/** The plan in the planner's hands: where it began, how it stands, the way back, which cleaning is selected. */
export function usePlanDraft(desk: PlanDesk, first: Base | null): DraftBoard {
  const [state, setState] = useState<State>(() => ({
    base: first,
    draft: first?.draft ?? draftFrom(desk, []).draft,
    past: [],
    selected: null,
  }));
  const { base, draft } = state;
  const begin = useCallback(
    (next: Base) => setState({ base: next, draft: next.draft, past: [], selected: null }),
    [],
  );
  const price = useMemo(() => priceDraft(desk, draft), [desk, draft]);
  const basePrice = useMemo(() => (base === null ? null : priceDraft(desk, base.draft)), [desk, base]);
  return {
    ...state,
    price,
    basePrice,
    isChanged: base !== null && !isSameSchedule(base.draft, draft),
    select: (selected) => setState((before) => ({ ...before, selected })),
    change: (next, selected) =>
      setState((before) => ({
        ...before,
        draft: next,
        selected,
        past: [...before.past, before.draft].slice(-MOST_PAST),
      })),
    undo: () =>
      setState((before) => ({
        ...before,
        draft: before.past.at(-1) ?? before.draft,
        past: before.past.slice(0, -1),
        selected: null,
      })),
    begin,
  };
}
