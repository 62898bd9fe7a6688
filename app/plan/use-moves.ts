'use client';

import { useEffect, useRef } from 'react';
import { bestPlace, placesFor } from '@/lib/report/plan/draft-places';
import { addCleaning, moveCleaning, nextOption, takeOut, toggleLock } from '@/lib/report/plan/draft-plan';
import type { PlanDesk, Spot } from '@/lib/report/plan/plan-desk';
import type { DraftBoard } from './use-plan-draft';

export type Moves = {
  step: (spot: Spot, step: -1 | 1) => void;
  to: (spot: Spot, option: number) => void;
  lock: (spot: Spot) => void;
  takeOut: (spot: Spot) => void;
  /** Adds a cleaning where it costs least; it can be moved from there. */
  add: (unit: number) => void;
};

/** How a bar and a row are found again after a change. */
export const spotKey = ({ unit, option }: Spot) => `${unit}-${option}`;
const rowSelector = (unit: number) => `[data-row="${unit}"]`;
const spotSelector = (spot: Spot) => `[data-spot="${spotKey(spot)}"]`;

/** What a planner does to a cleaning, by any means; the focus follows the cleaning where it was on it. */
export function useMoves(desk: PlanDesk, board: DraftBoard): Moves {
  const focus = useRef<string | null>(null);
  useEffect(() => {
    if (focus.current === null) return;
    document.querySelector<HTMLElement>(focus.current)?.focus();
    focus.current = null;
  });
  const follow = (spot: Spot) => {
    if (document.activeElement?.matches('[data-spot]')) focus.current = spotSelector(spot);
  };
  const to = (spot: Spot, option: number) => {
    const moved = { unit: spot.unit, option };
    if (option === spot.option) return;
    follow(moved);
    board.change(moveCleaning(board.draft, spot, option), moved);
  };
  return {
    to,
    step: (spot, step) => {
      const option = nextOption(desk, board.draft, { spot, step });
      if (option !== null) to(spot, option);
    },
    lock: (spot) => board.change(toggleLock(board.draft, spot), spot),
    takeOut: (spot) => {
      focus.current = rowSelector(spot.unit);
      board.change(takeOut(board.draft, spot), null);
    },
    add: (unit) => {
      const place = bestPlace(placesFor(desk, board.draft, { unit, option: null }));
      if (place === null) return;
      const spot = { unit, option: place.option };
      focus.current = spotSelector(spot);
      board.change(addCleaning(board.draft, spot), spot);
    },
  };
}
