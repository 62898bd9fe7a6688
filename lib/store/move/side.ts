import type { Cell } from './row-text';
import type { TableShape } from './table-shape';

/** Days since 1970 (UTC) in which there are readings, in the words that both databases know. */
export const READING_DAYS = `SELECT DISTINCT
  CASE WHEN time < 0 THEN (time - 86399999) / 86400000 ELSE time / 86400000 END AS day FROM reading`;

/** A database whose rows are read as they stood at one instant. */
export type Source = {
  /** Every row of a table in the order of its key, some at a time. */
  rows(table: TableShape): AsyncIterable<Cell[][]>;
  /** The highest number the database has given out for a table, rows that are gone among them; null where none was. */
  lastNumber(table: TableShape): Promise<bigint | null>;
  /** Months since January 1970 (UTC) in which there are readings. */
  readingMonths(): Promise<number[]>;
};

/** An empty database that takes rows; what it took stands once it is finished; closed before, it is as empty as it was. */
export type Target = {
  prepareReadings(months: readonly number[]): Promise<void>;
  write(table: TableShape, batches: AsyncIterable<Cell[][]>): Promise<void>;
  setLastNumber(table: TableShape, number: bigint): Promise<void>;
  /** What stands in it now, to be compared with what was sent. */
  rows: Source['rows'];
  finish(): Promise<void>;
};
