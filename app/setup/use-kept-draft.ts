'use client';

import { useCallback, useEffect, useState } from 'react';
import type { UnitDraft } from '@/lib/report/setup/unit-draft';

type Kept = { version: number | null; draft: UnitDraft };

/** Raised whenever the form asks for something new: a draft kept by an older form is not brought back. */
const FORM_VERSION = 4;
const keyOf = (tag: string | null) => `cleanby.draft.${FORM_VERSION}.${tag ?? 'new unit'}`;

/**
 * The draft of a form, kept in this tab until it is saved or discarded, so that leaving the page loses nothing.
 * `since` is the version a kept draft was begun from, where that is no longer the newest.
 */
export function useKeptDraft(tag: string | null, version: number | null, first: UnitDraft) {
  const [draft, setDraft] = useState(first);
  const [isDirty, setIsDirty] = useState(false);
  const [begunFrom, setBegunFrom] = useState(version);
  const [isRestored, setIsRestored] = useState(false);

  useEffect(() => {
    const kept = recall(tag);
    if (kept === null) return;
    setDraft(kept.draft);
    setBegunFrom(kept.version);
    setIsDirty(true);
    setIsRestored(true);
  }, [tag]);

  useEffect(() => {
    if (isDirty) keep(tag, { version: begunFrom, draft });
  }, [tag, begunFrom, draft, isDirty]);

  const change = useCallback((next: (before: UnitDraft) => UnitDraft) => {
    setIsDirty(true);
    setDraft(next);
  }, []);

  const discard = useCallback(() => {
    forget(tag);
    setDraft(first);
    setBegunFrom(version);
    setIsDirty(false);
    setIsRestored(false);
  }, [tag, first, version]);

  return { draft, change, discard, isDirty, isRestored, begunFrom };
}

function recall(tag: string | null): Kept | null {
  try {
    const text = sessionStorage.getItem(keyOf(tag));
    return text === null ? null : (JSON.parse(text) as Kept);
  } catch {
    return null;
  }
}

function keep(tag: string | null, kept: Kept): void {
  try {
    sessionStorage.setItem(keyOf(tag), JSON.stringify(kept));
  } catch {
    // A browser that keeps nothing loses the draft on leaving; the form works all the same.
  }
}

/** Forgets a draft that was saved. */
export function forget(tag: string | null): void {
  try {
    sessionStorage.removeItem(keyOf(tag));
  } catch {
    // Nothing was kept either.
  }
}
