'use client';

import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { bestPlace, nearestPlace, placesFor } from '@/lib/report/plan/draft-places';
import { addCleaning, moveCleaning, nextOption, takeOut, toggleLock } from '@/lib/report/plan/draft-plan';
import type { Spot } from '@/lib/report/plan/plan-desk';
import type { DraftBoard } from './use-plan-draft';

export type Moves = {
  step: (spot: Spot, step: -1 | 1) => void;
  to: (spot: Spot, option: number) => void;
  lock: (spot: Spot) => void;
  takeOut: (spot: Spot) => void;
  /** Adds a cleaning at the place nearest to a day; without one where it costs least. It can be moved from there. */
  add: (unit: number, day?: number) => void;
};

/** How a bar and a row are found again after a change. */
export const spotKey = ({ unit, option }: Spot) => `${unit}-${option}`;
const rowSelector = (unit: number) => `[data-row="${unit}"]`;
const spotSelector = (spot: Spot) => `[data-spot="${spotKey(spot)}"]`;

/** What a planner does to a cleaning, by any means; the focus follows the cleaning where it was on it. */
export function useMoves(board: DraftBoard): Moves {
  const focus = useRef<string | null>(null);
  // Rows are not drawn anew for a change elsewhere: what they do is done to the draft as it is by then.
  const latest = useRef(board);
  useLayoutEffect(() => {
    latest.current = board;
  });
  useEffect(() => {
    if (focus.current === null) return;
    document.querySelector<HTMLElement>(focus.current)?.focus();
    focus.current = null;
  });
  return useMemo(() => movesOf(latest, focus), []);
}

function movesOf(latest: RefObject<DraftBoard>, focus: RefObject<string | null>): Moves {
  const follow = (spot: Spot) => {
    if (document.activeElement?.matches('[data-spot]')) focus.current = spotSelector(spot);
  };
  const to = (spot: Spot, option: number) => {
    const { draft, change } = latest.current;
    const moved = { unit: spot.unit, option };
    if (option === spot.option) return;
    follow(moved);
    change(moveCleaning(draft, spot, option), moved);
  };
  return {
    to,
    step: (spot, step) => {
      const { desk, draft } = latest.current;
      const option = nextOption(desk, draft, { spot, step });
      if (option !== null) to(spot, option);
    },
    lock: (spot) => latest.current.change(toggleLock(latest.current.draft, spot), spot),
    takeOut: (spot) => {
      focus.current = rowSelector(spot.unit);
      latest.current.change(takeOut(latest.current.draft, spot), null);
    },
    add: (unit, day) => {
      const { desk, draft, change } = latest.current;
      const places = placesFor(desk, draft, { unit, option: null });
      const place = day === undefined ? bestPlace(places) : nearestPlace(places, day);
      if (place === null) return;
      const spot = { unit, option: place.option };
      focus.current = spotSelector(spot);
      change(addCleaning(draft, spot), spot);
    },
  };
}
