'use client';

import { useMemo, useState } from 'react';
import type { FleetRows } from './use-fleet-rows';

/** The row that has the keyboard, by its tag: it keeps it when rows around it come and go. */
export function useRowKeys(list: FleetRows) {
  const [activeTag, setActive] = useState('');
  const active = useMemo(() => {
    if (activeTag === '') return -1;
    for (const [at, item] of list.items) if (item.kind === 'row' && item.row.tag === activeTag) return at;
    return -1;
  }, [list, activeTag]);
  return { active, setActive, tabStop: active === -1 ? nextRow(list, firstPlace(list) - 1, 1) : active };
}

function firstPlace({ items }: FleetRows): number {
  return items.has(0) || items.size === 0 ? 0 : Math.min(...items.keys());
}

/** The next place that is a row, in a direction; where there is none, stays. */
export function nextRow({ count, heads }: FleetRows, from: number, step: 1 | -1): number {
  for (let at = from + step; at >= 0 && at < count; at += step) if (!heads.has(at)) return at;
  return from;
}

/** Moves the keyboard to a row, wherever it is in the list; `then` gets its link. */
export type FocusRow = (index: number, then?: (link: HTMLAnchorElement) => void) => void;

const TRIES = 180;

/** A row far away is drawn when the page has scrolled there and the row has come. */
export function focusWhenThere(
  list: HTMLOListElement | null,
  index: number,
  then: (link: HTMLAnchorElement) => void = () => {},
): void {
  const look = (tries: number) => {
    const link = list?.querySelector<HTMLAnchorElement>(`a[data-index="${index}"]`);
    if (link) {
      link.focus();
      then(link);
    } else if (tries > 0) requestAnimationFrame(() => look(tries - 1));
  };
  look(TRIES);
}
