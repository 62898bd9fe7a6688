import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { Merged } from './merge-row';
import type { ImportBatch, ImportCounts } from './series-store';

/** First and last instant of something [ms]. */
export type Stretch = { first: number; last: number };

/** What an import has come to so far. */
export type ImportTally = {
  read: number;
  setAside: number;
  /** Instants of the oldest and newest row read [ms]; null where there was none. */
  span: Stretch | null;
  added: number;
  replaced: number;
  unchanged: number;
  /** The stretch of each unit's readings that changed. */
  changed: Map<number, Stretch>;
};

export function newTally(): ImportTally {
  return { read: 0, setAside: 0, span: null, added: 0, replaced: 0, unchanged: 0, changed: new Map() };
}

/** Forgets what became of the rows: they are put into their place once more. */
export function uncount(tally: ImportTally): void {
  Object.assign(tally, { added: 0, replaced: 0, unchanged: 0 });
  tally.changed.clear();
}

/** Counts what was read, whatever will become of it. */
export function countChunk(tally: ImportTally, chunk: ReadingChunk): void {
  tally.read += chunk.read;
  tally.setAside += chunk.setAside.length;
  if (chunk.length === 0) return;
  let { first, last } = tally.span ?? { first: Number.POSITIVE_INFINITY, last: Number.NEGATIVE_INFINITY };
  for (let i = 0; i < chunk.length; i++) {
    const time = chunk.time[i]!;
    if (time < first) first = time;
    if (time > last) last = time;
  }
  tally.span = { first, last };
}

/** Counts what became of a row. */
export function countMerged(tally: ImportTally, unitId: number, time: number, merged: Merged): void {
  tally[merged]++;
  if (merged !== 'unchanged') countChanged(tally, unitId, { first: time, last: time });
}

export function countChanged({ changed }: ImportTally, unitId: number, { first, last }: Stretch): void {
  const known = changed.get(unitId);
  if (known === undefined) changed.set(unitId, { first, last });
  else {
    known.first = Math.min(known.first, first);
    known.last = Math.max(known.last, last);
  }
}

/** The tally as whoever imports is told it; nothing has changed where it was only checked. */
export function countsOf(tally: ImportTally, batch: number, { check }: ImportBatch): ImportCounts {
  const { changed, span, ...counts } = tally;
  return {
    ...counts,
    batch: check ? null : batch,
    firstTime: span?.first ?? null,
    lastTime: span?.last ?? null,
    changed: new Map(check ? [] : [...changed].map(([unitId, { first }]) => [unitId, first])),
  };
}

/** More units than this are not named in the record of an import, which then only counts them. */
const MOST_TAGS = 50;

/** What the record of changes says of an import. */
export function importDocument(tally: ImportTally, batch: number, { unitIds }: ImportBatch): object {
  const { read, added, replaced, unchanged, setAside, changed } = tally;
  const units =
    changed.size > MOST_TAGS
      ? changed.size
      : [...unitIds].filter(([, id]) => changed.has(id)).map(([tag]) => tag);
  return { batch, read, added, replaced, unchanged, setAside, units };
}
