'use client';

import { useVirtualizer } from '@tanstack/react-virtual';
import { type KeyboardEvent, useRef } from 'react';
import type { MappedColumn } from '@/lib/contract/column-guess';
import type { MappingChoice } from '@/lib/report/import/mapping-choices';
import { ColumnRow } from './column-row';
import styles from './mapping.module.css';

/** Height of a row before it is measured [px]. */
const ROW_HEIGHT = 108;
const OVERSCAN = 6;

type Props = {
  /** Places of the columns shown. */
  places: number[];
  columns: MappedColumn[];
  choices: MappingChoice[];
  problems: ReadonlyMap<string, string[]>;
  tagsId: string;
  onChange: (place: number, changes: Partial<MappingChoice>) => void;
  onTakeGuess: (place: number) => void;
  onFocus: (place: number) => void;
};

const NO_PROBLEMS: string[] = [];

/** The columns; only those in sight are in the page. Alt with an arrow goes to the next one, Alt with Enter takes its guess. */
export function ColumnList({ places, columns, choices, problems, ...row }: Props) {
  const scroll = useRef<HTMLElement>(null);
  const virtual = useVirtualizer({
    count: places.length,
    getScrollElement: () => scroll.current,
    estimateSize: () => ROW_HEIGHT,
    getItemKey: (index) => places[index]!,
    overscan: OVERSCAN,
    useFlushSync: false,
  });
  const goByKey = (event: KeyboardEvent) => {
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (!event.altKey || step === 0) return;
    event.preventDefault();
    const item = (event.target as HTMLElement).closest('li');
    const next = step > 0 ? item?.nextElementSibling : item?.previousElementSibling;
    const field = next?.querySelector<HTMLElement>('input, select');
    field?.focus();
    next?.scrollIntoView({ block: 'nearest' });
  };
  return (
    <section
      ref={scroll}
      className={styles.scroll}
      aria-label="Columns of the file"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard (WCAG 2.1.1)
      tabIndex={0}
    >
      <ol className={styles.list} style={{ height: virtual.getTotalSize() }} onKeyDown={goByKey}>
        {virtual.getVirtualItems().map(({ index, key, start }) => {
          const place = places[index]!;
          const choice = choices[place]!;
          return (
            <li
              key={key}
              ref={virtual.measureElement}
              data-index={index}
              aria-setsize={places.length}
              aria-posinset={index + 1}
              style={{ transform: `translateY(${start}px)` }}
            >
              <ColumnRow
                place={place}
                column={columns[place]!}
                choice={choice}
                problems={problems.get(choice.name) ?? NO_PROBLEMS}
                {...row}
              />
            </li>
          );
        })}
      </ol>
    </section>
  );
}
