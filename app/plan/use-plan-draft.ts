'use client';

import { useCallback, useEffect, useMemo, useState } from 'react';
import { draftFrom, isSameSchedule, type PlanDraft } from '@/lib/report/plan/draft-plan';
import { type DraftPrice, priceDraft } from '@/lib/report/plan/draft-price';
import type { PlanDesk, Spot } from '@/lib/report/plan/plan-desk';
import { type Base, forgetPlan, isByHand, type KeepingPlace, keepPlan, recallPlan } from './kept-plan';

type State = { base: Base | null; draft: PlanDraft; past: PlanDraft[]; selected: Spot | null };

/** What this tab had kept of an earlier visit; `unknown` before it was asked. */
type Memory = 'unknown' | 'none' | 'restored' | 'outdated';

/** Steps back that are kept. */
const MOST_PAST = 100;

export type DraftBoard = State & {
  /** The desk, with the plan the draft began as to compare with. */
  desk: PlanDesk;
  memory: Memory;
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
  /** Need not be kept any longer: it is on the server. */
  forget: () => void;
};

type Given = { desk: PlanDesk; first: Base | null; place: KeepingPlace };

/** The plan in the planner's hands: where it began, how it stands, the way back, which cleaning is selected. */
export function usePlanDraft({ desk: bare, first, place }: Given): DraftBoard {
  const [state, setState] = useState<State>(() => ({
    base: first,
    draft: first?.draft ?? draftFrom(bare, []).draft,
    past: [],
    selected: null,
  }));
  const { base, draft } = state;
  const memory = useMemory(place, state, setState);
  const desk = useMemo(
    (): PlanDesk => ({
      ...bare,
      compared: base === null ? null : { kind: base.kind, schedule: base.draft.schedule },
    }),
    [bare, base],
  );
  const price = useMemo(() => priceDraft(desk, draft), [desk, draft]);
  const basePrice = useMemo(() => (base === null ? null : priceDraft(desk, base.draft)), [desk, base]);
  return {
    ...state,
    desk,
    memory,
    price,
    basePrice,
    isChanged: base !== null && !isSameSchedule(base.draft, draft),
    forget: () => forgetPlan(place),
    ...useChanges(setState),
  };
}

function useChanges(setState: (next: (before: State) => State) => void) {
  const begin = useCallback(
    (base: Base) => setState(() => ({ base, draft: base.draft, past: [], selected: null })),
    [setState],
  );
  return {
    begin,
    select: (selected: Spot | null) => setState((before) => ({ ...before, selected })),
    change: (draft: PlanDraft, selected: Spot | null) =>
      setState((before) => ({
        ...before,
        draft,
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
  };
}

/** Brings back what this tab kept of the plan, and keeps every change from then on. */
function useMemory({ key, mark }: KeepingPlace, state: State, setState: (state: State) => void): Memory {
  const [memory, setMemory] = useState<Memory>('unknown');
  // biome-ignore lint/correctness/useExhaustiveDependencies: asked once, where the page is opened
  useEffect(() => {
    const { kept, isOutdated } = recallPlan({ key, mark });
    if (kept !== null) setState({ ...kept, selected: null });
    setMemory(isOutdated ? 'outdated' : kept !== null && isByHand(kept) ? 'restored' : 'none');
  }, []);
  const { base, draft, past } = state;
  useEffect(() => {
    if (memory !== 'unknown') keepPlan({ key, mark }, { base, draft, past });
  }, [memory, key, mark, base, draft, past]);
  return memory;
}
