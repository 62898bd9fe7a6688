import type { Actor } from '@/lib/contract/actor';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import type { ReadingChunk } from '@/lib/ingest/reading-chunk';
import type { AnalysisStore } from './analysis-store';
import type { NominalAsked } from './nominal-search';

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

/** Who changes something, and when [ms]. */
export type ChangedBy = { actor: Actor; at: number };

export type ImportBatch = ChangedBy & {
  source: string;
  /** SHA-256 of the bytes as they came; null where nobody worked it out. */
  contentHash?: string | null;
  /** Saved mapping it was read with. */
  mappingName?: string | null;
  chunks: AsyncIterable<ReadingChunk>;
  unitIds: ReadonlyMap<string, number>;
  /** True: count what would happen and store nothing. */
  check: boolean;
};

/** The oldest change not yet analysed [ms], and a mark that is new with every change. */
export type Due = { since: number; mark: string };

/** Rows that undoing a batch removes and puts back, and those that a later batch has changed since: they keep its values. */
export type UndoCounts = { removed: number; restored: number; kept: number };

/** What an undo did; units whose readings changed, with the oldest change [ms]. */
export type Undone = UndoCounts & { changed: Map<number, number> };

/** One reading that a batch changed: values of the sensors in the order of SENSORS, in SI. */
export type ReplacedRow = {
  unitId: number;
  /** [ms] */
  time: number;
  /** The batch whose values stood before. */
  beforeBatch: number;
  before: (number | null)[];
  /** Bits of the flows that were volumes, before and as the batch left them. */
  basisBefore: number;
  basisAfter: number;
  /** As the batch left it; null where the batch was undone. */
  after: (number | null)[] | null;
  /** Whether a later batch has changed it again. */
  isChangedSince: boolean;
};

/** First and last reading of a unit [ms]. */
export type ReadingSpan = { first: number; last: number };

/** Readings of a unit with from ≤ time < to [ms]. */
export type ReadingStretch = { unitId: number; from: number; to: number };

/**
 * Readings and daily figures in bulk, by prepared statements: the same signatures on each database.
 * A batch is taken whole or not at all; identity is (unit, sensor, instant).
 */
export type SeriesStore = {
  importBatch(batch: ImportBatch): Promise<ImportCounts>;
  /**
   * Puts back what a batch changed and marks it undone; rows changed again since by a later batch keep the later value. Null
   * where it was undone already.
   */
  undoBatch(batch: number, change: ChangedBy): Promise<Undone | null>;
  /** What undoing a batch would do. Nothing is stored. */
  undoPreview(batch: number): Promise<UndoCounts>;
  /** Readings that a batch changed, as they stood before and as it left them, in order of unit and time. */
  replacedReadings(batch: number, most: number): Promise<ReplacedRow[]>;
  /** Readings with from ≤ time < to [ms], in time order. */
  readReadings(unitId: number, from: number, to: number): Promise<ReadingColumns>;
  readingSpan(unitId: number): Promise<ReadingSpan | null>;
  /** Of those units that have readings. */
  readingSpans(unitIds: readonly number[]): Promise<Map<number, ReadingSpan>>;
  /** Bits of the sensors that hold a typed-in value over the record before `to` (`judgeNominal`). */
  nominalSensors(unitId: number, to: number): Promise<number>;
  /** The same of many units; where something is known of the readings before, only those since are looked at. */
  nominalSensorsOf(asked: readonly NominalAsked[]): Promise<Map<number, number>>;
  /** Newest reading of each unit that has any [ms]. */
  newestReadings(): Promise<Map<number, number>>;
  /** Daily figures from a local day on, in order. */
  readDaily(unitId: number, fromDay?: number): Promise<DailyColumns>;
  /** The same of many units: each that was asked for is in it. */
  readDailyOf(asked: readonly { unitId: number; fromDay?: number }[]): Promise<Map<number, DailyColumns>>;
  /** What is not yet analysed, by unit. */
  due(): Promise<Map<number, Due>>;
  markDue(unitId: number, since: number): Promise<void>;
  /** Marks units due since an instant [ms], all of them or none. */
  markAllDue(unitIds: readonly number[], since: number): Promise<void>;
  /** Another text whenever something that pages show has changed: entities, readings or results. */
  revision(): Promise<string>;
  /** Who analyses which unit, and what analyses write. */
  analysis: AnalysisStore;
  close(): void;
};
