'use client';

import { useWindowVirtualizer } from '@tanstack/react-virtual';
import { useSearchParams } from 'next/navigation';
import {
  type KeyboardEvent,
  type RefObject,
  useCallback,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { FleetItem } from '@/lib/report/fleet-order';
import type { FleetRow } from '@/lib/report/fleet-row';
import type { FleetView } from '@/lib/report/fleet-view';
import styles from './fleet.module.css';
import { FleetGroupHead } from './fleet-group-head';
import { FleetRowLine } from './fleet-row-line';
import { useIsPrinting, useMedia } from './use-media';

/** Heights in px as fleet.module.css sets them. */
const HEIGHTS = { row: 44, group: 34, card: 176 };
const NARROW = '(max-width: 760px)';
/** Up to this many rows all are in the page; above, only those in sight. */
const ALL_ROWS_UP_TO = 60;
/** Server and first client render agree on this window. */
const FIRST_WINDOW = { width: 1440, height: 900 };

type Props = { view: FleetView; items: FleetItem[]; axisWidth: number; focusFirst: RefObject<() => void> };

/** The rows. One of them takes the tab stop; arrows, Home and End move it. */
export function FleetList({ view, items, axisWidth, focusFirst }: Props) {
  const list = useRef<HTMLOListElement>(null);
  const [activeKey, setActiveKey] = useState('');
  const [offset, setOffset] = useState(0);
  const isNarrow = useMedia(NARROW);
  const isPrinting = useIsPrinting();
  const isWindowed = items.length > ALL_ROWS_UP_TO && !isPrinting;
  const heightOf = (item: FleetItem) =>
    item.kind === 'group' ? HEIGHTS.group : isNarrow ? HEIGHTS.card : HEIGHTS.row;
  const virtual = useWindowVirtualizer({
    count: items.length,
    estimateSize: (index) => heightOf(items[index]!),
    overscan: 10,
    scrollMargin: offset,
    initialRect: FIRST_WINDOW,
    useFlushSync: false,
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list moves down when the bars above it wrap
  useLayoutEffect(() => setOffset(topOf(list.current)), [isNarrow, items]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: heights change with these, the virtualiser only sees the count
  useEffect(() => virtual.measure(), [isNarrow, items]);

  const active = useMemo(() => items.findIndex((item) => keyOf(item) === activeKey), [items, activeKey]);
  const total = useMemo(() => items.filter((item) => item.kind === 'row').length, [items]);
  const units = useSearchParams().get('units');
  const query = units === null ? '' : `?units=${units}`;
  const onFocus = useCallback((row: FleetRow) => setActiveKey(rowKey(row)), []);
  const tabStop = active === -1 ? nextRow(items, -1, 1) : active;
  const focusRow = (index: number) => {
    setActiveKey(keyOf(items[index]));
    if (isWindowed) virtual.scrollToIndex(index, { align: 'auto' });
    focusWhenThere(list.current, index);
  };
  focusFirst.current = () => focusRow(nextRow(items, -1, 1));
  const onKeyDown = (event: KeyboardEvent) => {
    const to = KEYS[event.key]?.(items, tabStop);
    if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    focusRow(to);
  };

  const shown = isWindowed ? virtual.getVirtualItems() : items.map((_, index) => ({ index, start: 0 }));
  return (
    <div className={styles.body}>
      <MonthLines view={view} />
      <ol
        ref={list}
        className={isWindowed ? `${styles.list} ${styles.windowed}` : styles.list}
        style={isWindowed ? { height: virtual.getTotalSize() } : undefined}
        onKeyDown={onKeyDown}
      >
        {shown.map(({ index, start }) => {
          const item = items[index]!;
          const top = isWindowed ? start - offset : null;
          return item.kind === 'group' ? (
            <FleetGroupHead key={keyOf(item)} item={item} view={view} axisWidth={axisWidth} top={top} />
          ) : (
            <FleetRowLine
              key={keyOf(item)}
              row={item.row}
              rank={item.rank}
              total={total}
              view={view}
              top={top}
              index={index}
              isTabStop={index === tabStop}
              query={query}
              onFocus={onFocus}
            />
          );
        })}
      </ol>
    </div>
  );
}

/** Distance from the top of the document [px]. */
function topOf(element: HTMLElement | null): number {
  return element === null ? 0 : element.getBoundingClientRect().top + window.scrollY;
}

/** One faint line per month behind all rows. */
function MonthLines({ view }: { view: FleetView }) {
  return (
    <div className={`${styles.grid} ${styles.columns}`}>
      <svg aria-hidden="true">
        <title>months</title>
        {view.months.map(({ at }) => (
          <line key={at} x1={`${at * 100}%`} x2={`${at * 100}%`} y1="0" y2="100%" />
        ))}
      </svg>
    </div>
  );
}

const KEYS: Record<string, (items: FleetItem[], from: number) => number> = {
  ArrowDown: (items, from) => nextRow(items, from, 1),
  ArrowUp: (items, from) => nextRow(items, from, -1),
  Home: (items) => nextRow(items, -1, 1),
  End: (items) => nextRow(items, items.length, -1),
};

function keyOf(item: FleetItem | undefined): string {
  if (item === undefined) return '';
  return item.kind === 'group' ? `group ${item.name}` : rowKey(item.row);
}

function rowKey(row: FleetRow): string {
  return `${row.tag} ${row.site}`;
}

/** The next item that is a row, in a direction; where there is none, stays. */
function nextRow(items: FleetItem[], from: number, step: 1 | -1): number {
  for (let at = from + step; at >= 0 && at < items.length; at += step)
    if (items[at]!.kind === 'row') return at;
  return from;
}

const TRIES = 30;

/** A row far away is drawn a few frames after the page has scrolled there. */
function focusWhenThere(list: HTMLOListElement | null, index: number, tries = TRIES): void {
  const link = list?.querySelector<HTMLAnchorElement>(`a[data-index="${index}"]`);
  if (link) link.focus();
  else if (tries > 0) requestAnimationFrame(() => focusWhenThere(list, index, tries - 1));
}
