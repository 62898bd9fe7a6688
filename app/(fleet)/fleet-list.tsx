'use client';

import { useWindowVirtualizer } from '@tanstack/react-virtual';
import { useSearchParams } from 'next/navigation';
import {
  type KeyboardEvent,
  type RefObject,
  useCallback,
  useEffect,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import type { FleetRow } from '@/lib/report/fleet-row';
import type { FleetView } from '@/lib/report/fleet-view';
import styles from './fleet.module.css';
import { FleetItemLine } from './fleet-item-line';
import { FleetPrinted } from './fleet-printed';
import { MonthLines } from './month-lines';
import type { FleetRows } from './use-fleet-rows';
import { type LeaveFind, useLeaveFind } from './use-leave-find';
import { useIsHydrated, useIsPrinting, useMedia } from './use-media';
import { type FocusRow, focusWhenThere, nextRow, useRowKeys } from './use-row-keys';

/** Heights in px as fleet.module.css sets them. */
const HEIGHTS = { row: 44, group: 34, card: 176 };
const NARROW = '(max-width: 760px)';
/** Up to this many rows all are in the page; above, only those in sight. */
const ALL_ROWS_UP_TO = 60;
/** So many rows are ready above and below those in sight, and so many go on paper. */
const AHEAD = 60;
const PRINTED_ROWS = 300;
/** Rows for paper are fetched when nothing else has happened for so long [ms]. */
const IDLE_MS = 1_500;

type Props = {
  view: FleetView;
  list: FleetRows;
  need: (from: number, to: number) => void;
  isFetching: boolean;
  axisWidth: number;
  leaveFind: RefObject<LeaveFind>;
};

/** The rows. One of them takes the tab stop; arrows, Home and End move it. */
export function FleetList({ view, list, need, isFetching, axisWidth, leaveFind }: Props) {
  const element = useRef<HTMLOListElement>(null);
  const [offset, setOffset] = useState(0);
  const isNarrow = useMedia(NARROW);
  const isPrinting = useIsPrinting();
  const isHydrated = useIsHydrated();
  const { count, heads } = list;
  const isWindowed = count > ALL_ROWS_UP_TO && !isPrinting && isHydrated;
  const virtual = useWindowVirtualizer({
    count,
    estimateSize: (at) => (heads.has(at) ? HEIGHTS.group : isNarrow ? HEIGHTS.card : HEIGHTS.row),
    overscan: 10,
    scrollMargin: offset,
    useFlushSync: false,
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list moves down when the bars above it wrap
  useLayoutEffect(() => setOffset(topOf(element.current)), [isNarrow, list.query, count, isHydrated]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: heights change with these, the virtualiser only sees the count
  useEffect(() => virtual.measure(), [isNarrow, heads]);

  const shown = isWindowed ? virtual.getVirtualItems() : hereOf(list).map((index) => ({ index, start: 0 }));
  useWanted({ list, need, isWindowed, first: shown[0]?.index ?? 0, last: shown.at(-1)?.index ?? 0 });

  const { active, setActive, tabStop } = useRowKeys(list);
  const units = useSearchParams().get('units');
  const query = units === null ? '' : `?units=${units}`;
  const onFocus = useCallback((row: FleetRow) => setActive(row.tag), [setActive]);
  const focusRow: FocusRow = (index, then) => {
    if (isWindowed) virtual.scrollToIndex(index, { align: 'auto' });
    focusWhenThere(element.current, index, then);
  };
  useLeaveFind({ leaveFind, list, isFetching, focusRow });
  const onKeyDown = (event: KeyboardEvent) => {
    const to = KEYS[event.key]?.(list, active === -1 ? tabStop : active);
    if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    focusRow(to);
  };
  return (
    <div className={styles.body}>
      <MonthLines view={view} />
      <ol
        ref={element}
        className={isWindowed ? `${styles.list} ${styles.windowed}` : styles.list}
        style={isWindowed ? { height: virtual.getTotalSize() } : undefined}
        onKeyDown={onKeyDown}
      >
        {shown.map(({ index, start }) => (
          <FleetItemLine
            key={index}
            item={list.items.get(index)}
            index={index}
            total={list.rows}
            top={isWindowed ? start - offset : null}
            height={isNarrow ? HEIGHTS.card : HEIGHTS.row}
            isTabStop={index === tabStop}
            {...{ view, axisWidth, query, onFocus }}
          />
        ))}
      </ol>
      <FleetPrinted printed={hereOf(list).length} of={count} />
    </div>
  );
}

/** Asks for rows in sight and around, and when all is quiet for those that would go on paper. */
function useWanted({
  list,
  need,
  isWindowed,
  first,
  last,
}: Pick<Props, 'list' | 'need'> & { isWindowed: boolean; first: number; last: number }) {
  // biome-ignore lint/correctness/useExhaustiveDependencies: rows of another list have to come too
  useEffect(() => {
    if (isWindowed) need(first - AHEAD, last + AHEAD);
  }, [list, isWindowed, need, first, last]);
  useEffect(() => {
    if (hereOf(list).length >= Math.min(list.count, PRINTED_ROWS)) return;
    const waiting = setTimeout(() => need(0, PRINTED_ROWS), IDLE_MS);
    return () => clearTimeout(waiting);
  }, [list, need]);
}

/** Places of the rows that are here from the first on, or from the first that came: what paper and a browser without scripts show. */
function hereOf({ items, count }: FleetRows): number[] {
  const from = items.has(0) ? 0 : Math.min(...items.keys());
  const places: number[] = [];
  for (let at = from; at < count && items.has(at) && places.length < PRINTED_ROWS; at++) places.push(at);
  return places;
}

/** Distance from the top of the document [px]. */
function topOf(element: HTMLElement | null): number {
  return element === null ? 0 : element.getBoundingClientRect().top + window.scrollY;
}

const KEYS: Record<string, (list: FleetRows, from: number) => number> = {
  ArrowDown: (list, from) => nextRow(list, from, 1),
  ArrowUp: (list, from) => nextRow(list, from, -1),
  Home: (list) => nextRow(list, -1, 1),
  End: (list) => nextRow(list, list.count, -1),
};
