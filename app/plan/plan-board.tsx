'use client';

import { useSearchParams } from 'next/navigation';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { ProblemNotice } from '@/app/ui/api/problem-notice';
import type { PlanRequest } from '@/lib/contract/plan';
import { clashingSpots } from '@/lib/report/plan/clashing-spots';
import { draftFrom, lockedCleanings, moveCleaning } from '@/lib/report/plan/draft-plan';
import { priceDraft } from '@/lib/report/plan/draft-price';
import { readPlanAddress } from '@/lib/report/plan/plan-address';
import { openDesk } from '@/lib/report/plan/plan-desk';
import type { PlanView } from '@/lib/report/plan/plan-view';
import { type Acceptance, AcceptSection } from './accept-section';
import { ClashSection } from './clash-section';
import { CompareSection } from './compare-section';
import { type Base, keepingPlace } from './kept-plan';
import { MemoryNotice } from './memory-notice';
import { PlanHead } from './plan-head';
import { PlanPicture } from './plan-picture';
import { PlanTable } from './plan-table';
import { PlanToolbar } from './plan-toolbar';
import { SolveProgress } from './solve-progress';
import type { Stage } from './stage';
import { useDrag } from './use-drag';
import { useMoves } from './use-moves';
import { usePlanDraft } from './use-plan-draft';
import { useSolver } from './use-solver';

type Props = { view: PlanView; acceptance: Acceptance };

/** The plan on the board: solved or accepted to begin with, then moved about, locked, solved again, accepted. */
export function PlanBoard({ view, acceptance }: Props) {
  const bare = useMemo(() => openDesk(view.desk), [view.desk]);
  const place = useMemo(() => keepingPlace(view), [view]);
  const accepted = useMemo((): Base | null => {
    if (view.accepted === null) return null;
    const { cleanings, result } = view.accepted;
    return { kind: 'accepted', ...draftFrom(bare, cleanings), result };
  }, [bare, view.accepted]);
  const board = usePlanDraft({ desk: bare, first: accepted, place });
  const { desk } = board;
  const moves = useMoves(board);
  const solver = useSolver();
  const dragging = useDrag({ desk, draft: board.draft, span: view.span, drop: moves.to });
  const shown = useShown(desk, board, dragging.drag);
  const [isAdding, setAdding] = useState(false);
  const adding = { isOn: isAdding, set: setAdding };
  const stage: Stage = { view, desk, board, moves, dragging, shown, adding };

  const { begin, draft, base } = board;
  const { solve } = solver;
  const solveAround = useCallback(
    async (locked: PlanRequest['locked']) => {
      const result = await solve({ ...view.request, locked });
      if (result !== null) begin({ kind: 'solved', ...draftFrom(bare, result.cleanings), result });
    },
    [solve, view.request, begin, bare],
  );
  const isAsked = board.memory !== 'unknown';
  const isWanted = isAsked && (base === null || (base.kind === 'accepted' && !view.isAsAccepted));
  // The first plan is made without being asked for, where there is none that fits.
  useEffect(() => {
    if (isWanted) void solveAround([]);
  }, [isWanted, solveAround]);

  const isTable = readPlanAddress(Object.fromEntries(useSearchParams())).view === 'table';
  const isSolving = solver.elapsed !== null;
  return (
    <div aria-busy={isSolving}>
      <PlanHead stage={stage} />
      <PlanToolbar
        stage={stage}
        isSolving={isSolving}
        solve={() => void solveAround(lockedCleanings(desk, draft))}
      />
      <SolveProgress solver={solver} timeLimit={view.request.timeLimit} />
      <MemoryNotice stage={stage} />
      {solver.problem === null ? null : <ProblemNotice title="No plan was made" problem={solver.problem} />}
      {isTable ? <PlanTable stage={stage} /> : <PlanPicture stage={stage} />}
      <ClashSection stage={stage} />
      <CompareSection stage={stage} />
      <AcceptSection stage={stage} acceptance={acceptance} isSolving={isSolving} />
    </div>
  );
}

/** What the board shows: the draft, with what is in the hand where it would drop. */
function useShown(
  desk: Stage['desk'],
  { draft, price }: Stage['board'],
  drag: Stage['dragging']['drag'],
): Stage['shown'] {
  return useMemo(() => {
    if (drag === null || drag.over.option === drag.spot.option)
      return { draft, price, clashing: clashingSpots(desk, draft, price) };
    const moved = moveCleaning(draft, drag.spot, drag.over.option);
    const then = priceDraft(desk, moved);
    return { draft: moved, price: then, clashing: clashingSpots(desk, moved, then) };
  }, [desk, draft, price, drag]);
}
