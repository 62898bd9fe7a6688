'use client';

import { useRouter } from 'next/navigation';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { FleetWindow, WindowItem } from '@/lib/report/fleet/fleet-index';
import { WINDOW_ITEMS } from '@/lib/report/fleet/window-size';

const PART = WINDOW_ITEMS;
const PARTS_AT_ONCE = 4;
/** A list that is scrolled fast asks no oftener than this [ms]. */
const ASK_EVERY_MS = 80;
/** While an analysis saves result after result, the page is made anew no oftener than this [ms]; until then rows of both mix. */
const RENEW_EVERY_MS = 10_000;

/** The list of the fleet: how long it is, and as much of it as has come so far. */
export type FleetRows = {
  /** What it is the list of: another choice of rows is another list. */
  query: string;
  rows: number;
  count: number;
  heads: ReadonlySet<number>;
  items: ReadonlyMap<number, WindowItem>;
};

type Held = FleetRows & { revision: string };

type Given = { query: string; window: FleetWindow };

/**
 * The rows of a choice, `first` being what came with the page: another choice is fetched, and so is what `need` names. The rows
 * of before stay until those asked for are here.
 */
export function useFleetRows(first: Given, query: string) {
  const router = useRouter();
  const [seen, setSeen] = useState(first.window);
  const [held, setHeld] = useState(() => startWith(first));
  if (seen !== first.window) {
    setSeen(first.window);
    setHeld(startWith(first));
  }
  const state = useRef({ held, query, asked: new Set<number>() });
  state.current.held = held;
  if (state.current.query !== query) state.current = { held, query, asked: new Set() };

  const renewedAt = useRef(Number.NEGATIVE_INFINITY);
  const take = useCallback(
    (got: FleetWindow, of: string) => {
      if (state.current.query !== of) return;
      const { held: before } = state.current;
      const isNewer =
        before.revision !== got.revision && performance.now() - renewedAt.current > RENEW_EVERY_MS;
      const isOther = before.query !== of || before.count !== got.count || isNewer;
      if (isNewer) {
        renewedAt.current = performance.now();
        router.refresh();
      }
      const next = isOther ? startWith({ query: of, window: got }) : { ...before, items: added(before, got) };
      if (isOther) state.current.asked = new Set();
      state.current.held = next;
      setHeld(next);
    },
    [router],
  );

  useEffect(() => {
    if (state.current.held.query === query) return;
    const leaving = new AbortController();
    fetchPart(query, { from: 0, items: PART * PARTS_AT_ONCE }, leaving.signal).then(
      (got) => got && take(got, query),
    );
    return () => leaving.abort();
  }, [query, take]);

  /** Asks for what is not here yet between two places of the list. */
  const need = useCallback(
    (from: number, to: number) => {
      const { held: now, query: of, asked } = state.current;
      if (now.query !== of) return;
      for (const part of missingParts(now, asked, { from, to })) {
        const parts = placesOf(part);
        for (const place of parts) asked.add(place);
        fetchPart(of, part).then((got) => {
          if (got !== null) take(got, of);
          for (const place of parts) asked.delete(place);
        });
      }
    },
    [take],
  );
  return { list: held, isWaiting: held.query !== query, need: useThrottled(need) };
}

function startWith({ query, window: { revision, rows, count, heads, from, items } }: Given): Held {
  const places = new Map(items.map((item, at) => [from + at, item]));
  return { query, revision, rows, count, heads: new Set(heads), items: places };
}

function added({ items }: Held, got: FleetWindow): ReadonlyMap<number, WindowItem> {
  const more = new Map(items);
  for (const [at, item] of got.items.entries()) more.set(got.from + at, item);
  return more;
}

type Part = { from: number; items: number };

/** Stretches that have not come and were not asked for, each as long as may be asked for at once. */
function missingParts(
  { items, count }: Held,
  asked: ReadonlySet<number>,
  wanted: { from: number; to: number },
): Part[] {
  const parts: Part[] = [];
  const end = Math.min(count, wanted.to);
  for (let from = Math.max(0, Math.floor(wanted.from / PART) * PART); from < end; from += PART) {
    const isHere = items.has(from) && items.has(Math.min(from + PART, count) - 1);
    if (isHere || asked.has(from)) continue;
    const last = parts.at(-1);
    if (last !== undefined && last.from + last.items === from && last.items < PART * PARTS_AT_ONCE)
      last.items += PART;
    else parts.push({ from, items: PART });
  }
  return parts;
}

function placesOf({ from, items }: Part): number[] {
  return Array.from({ length: Math.ceil(items / PART) }, (_, at) => from + at * PART);
}

/** Null where the server cannot be reached: what is missing is asked for again when it comes in sight again. */
async function fetchPart(
  query: string,
  { from, items }: Part,
  signal?: AbortSignal,
): Promise<FleetWindow | null> {
  try {
    const answer = await fetch(`/api/fleet/rows?${query}&from=${from}&items=${items}`, {
      signal: signal ?? null,
    });
    return answer.ok ? ((await answer.json()) as FleetWindow) : null;
  } catch {
    return null;
  }
}

/** The same at most every so often, and at last with what was wanted last. */
function useThrottled(act: (from: number, to: number) => void): (from: number, to: number) => void {
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const last = useRef({ at: Number.NEGATIVE_INFINITY, from: 0, to: 0 });
  useEffect(() => () => clearTimeout(timer.current ?? undefined), []);
  return useCallback(
    (from, to) => {
      Object.assign(last.current, { from, to });
      const run = () => {
        timer.current = null;
        last.current.at = performance.now();
        act(last.current.from, last.current.to);
      };
      const wait = last.current.at + ASK_EVERY_MS - performance.now();
      if (timer.current !== null) return;
      if (wait <= 0) run();
      else timer.current = setTimeout(run, wait);
    },
    [act],
  );
}
