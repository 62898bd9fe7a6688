import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';

export type ImportCounts = {
  batch: number | null;
  read: number;
  added: number;
  replaced: number;
  unchanged: number;
  setAside: number;
  /** Instants of the oldest and newest row read [ms]; null where there was none. */
  firstTime: number | null;
  lastTime: number | null;
  /** Units whose readings changed, with the oldest change [ms]. */
  changed: Map<number, number>;
};

export type ImportBatch = {
  source: string;
  /** [ms] */
  at: number;
  chunks: AsyncIterable<ReadingChunk>;
  unitIds: ReadonlyMap<string, number>;
  /** True: count what would happen and store nothing. */
  check: boolean;
};

/** The oldest change not yet analysed [ms], and a mark that is new with every change. */
export type Due = { since: number; mark: string };

export type ReadingSpan = { first: number; last: number; count: number };

/**
 * Readings and daily figures in bulk, by prepared statements: the same signatures on each database.
 * A batch is taken whole or not at all; identity is (unit, sensor, instant).
 */
export type SeriesStore = {
  importBatch(batch: ImportBatch): Promise<ImportCounts>;
  /** Puts back what a batch changed and marks it undone at an instant [ms]; rows changed again since by a later batch keep the later value. */
  undoBatch(
    batch: number,
    at: number,
  ): Promise<{ removed: number; restored: number; changed: Map<number, number> }>;
  /** Readings with from ≤ time < to [ms], in time order. */
  readReadings(unitId: number, from: number, to: number): Promise<ReadingColumns>;
  readingSpan(unitId: number): Promise<ReadingSpan | null>;
  /** Bits of the sensors that hold a typed-in value over the record before `to` (`judgeNominal`). */
  nominalSensors(unitId: number, to: number): Promise<number>;
  /** Newest reading of each unit that has any [ms]. */
  newestReadings(): Promise<Map<number, number>>;
  /** Daily figures from a local day on, in order. */
  readDaily(unitId: number, fromDay?: number): Promise<DailyColumns>;
  /** Replaces every daily figure from a local day on. */
  replaceDaily(unitId: number, fromDay: number, daily: DailyColumns): Promise<void>;
  /** What is not yet analysed, by unit. */
  due(): Promise<Map<number, Due>>;
  markDue(unitId: number, since: number): Promise<void>;
  /** Clears what was due under a mark; a change that arrived in the meantime has another mark and stays due. */
  clearDue(unitId: number, mark: string): Promise<void>;
  close(): void;
};
