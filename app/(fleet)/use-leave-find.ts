'use client';

import { type RefObject, useEffect, useState } from 'react';
import type { FleetRows } from './use-fleet-rows';
import { type FocusRow, nextRow } from './use-row-keys';

/** A key by which the keyboard leaves the find box, and the text whose rows are meant. */
type Leaving = { find: string; key: 'ArrowDown' | 'Enter' };

/** The find box gives the keyboard away; null: somebody types on. */
export type LeaveFind = (leaving: Leaving | null) => void;

type Given = {
  leaveFind: RefObject<LeaveFind>;
  list: FleetRows;
  isFetching: boolean;
  focusRow: FocusRow;
};

/**
 * Moves to the first row as soon as the rows of the text are here. Enter opens it where nothing else was found, or where a key
 * before it already went there: whoever types faster than the rows come gets what was typed.
 */
export function useLeaveFind({ leaveFind, list, isFetching, focusRow }: Given): void {
  const [wanted, setWanted] = useState<(Leaving & { opens: boolean }) | null>(null);
  leaveFind.current = (leaving) =>
    setWanted((before) => leaving && { ...leaving, opens: leaving.key === 'Enter' && before !== null });
  const isHere = wanted !== null && !isFetching && findOf(list) === wanted.find;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the way to focus is another one at every render
  useEffect(() => {
    if (wanted === null || !isHere) return;
    const opens = wanted.opens || (wanted.key === 'Enter' && list.rows === 1);
    focusRow(nextRow(list, -1, 1), (link) => {
      setWanted(null);
      if (opens) link.click();
    });
  }, [wanted, isHere]);
}

function findOf(list: FleetRows): string {
  return new URLSearchParams(list.query).get('find') ?? '';
}
