import type { Fault } from '@/lib/contract/app-error';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';
import type { UnitRecord } from '@/lib/report/records';
import type { EvaluatedUnit } from '@/lib/report/worked/worked-state';
import type { HandInstruments } from './read-entries';
import type { SpotCheckEntries } from './spot-check-entries';

/** Input of the spot-check page: the unit with its stored trend, what was typed, and its evaluation. Nothing of it is stored. */
export type SpotCheckRecords = {
  record: UnitRecord;
  trend: UnitTrend | null;
  /** What the trend calls today [ms]. */
  now: number;
  /** The real time [ms]. */
  clock: number;
  entries: SpotCheckEntries;
  faults: Fault[];
  /** Null while no reading is typed in, or one that cannot be read. */
  checked: CheckedReading | null;
  /** The unit's newest accepted reading, as columns of length 1; null where none is known. */
  last: ReadingColumns | null;
};

/** One reading (columns of length 1) evaluated against the unit as it was then, its sensors replaced by the hand instruments. */
export type CheckedReading = EvaluatedUnit & {
  at: number;
  instruments: HandInstruments;
};
