import { quantileOfSorted } from '@/lib/core/stats/quantile';
import { COMMA, POINT, readDecimal } from '../read-decimal';
import type { StatusWords } from '../status-words';

/** What a guess looks at of one column, or of one sensor of a long file. */
export type ColumnSample = {
  name: string;
  /** What further header rows say of it. */
  description: string;
  /** Unit of measure as written; null where none is. */
  unit: string | null;
  /** The first cells that are not empty, as written. */
  first: string[];
  /** Cells looked at that are not empty. */
  filled: number;
  /** Numbers among them, in the file's order. */
  numbers: number[];
};

/** Middle and ends of a column's numbers as written; null where there are none. */
export type Spread = { low: number; middle: number; high: number };

const FIRST_CELLS = 3;

export function emptySample(column: Pick<ColumnSample, 'name' | 'description' | 'unit'>): ColumnSample {
  return { ...column, first: [], filled: 0, numbers: [] };
}

/** How the cells of a file are written. */
export type CellReading = { decimalComma: boolean; status: StatusWords };

/** Takes a cell in; one that holds a status word in place of a value counts as empty. */
export function takeCell(sample: ColumnSample, cell: string, { decimalComma, status }: CellReading): void {
  if (cell === '') return;
  const value = readDecimal(cell, decimalComma ? COMMA : POINT);
  const isNumber = Number.isFinite(value);
  if ((!isNumber || status.holdsNumbers) && status.wordOf(cell) !== null) return;
  sample.filled++;
  if (sample.first.length < FIRST_CELLS) sample.first.push(cell);
  if (isNumber) sample.numbers.push(value);
}

/** The middle nine tenths: a spike or a zero of a stopped plant does not say what a column holds. */
export function spreadOf(numbers: readonly number[]): Spread | null {
  if (numbers.length === 0) return null;
  const sorted = Float64Array.from(numbers).sort();
  return {
    low: quantileOfSorted(sorted, 0.05),
    middle: quantileOfSorted(sorted, 0.5),
    high: quantileOfSorted(sorted, 0.95),
  };
}
