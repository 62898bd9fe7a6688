import type { RowContext } from '../column-rows';
import { readDecimal } from '../read-decimal';
import type { ReadingColumn } from '../reading-format';
import { timePlace } from '../time-field';
import { ByteTime } from './byte-time';
import { type CellKind, LineCells } from './line-cells';

/** Reads the line between two places into the chunk that is being filled, or does nothing and returns false. */
export type PlainRow = {
  take(bytes: Uint8Array, line: { from: number; end: number; number: number }): boolean;
};

/** What plain rows of every layout need. */
export type PlainContext = RowContext & {
  delimiter: number;
  /** Text of the bytes of a cell. */
  decode(bytes: Uint8Array): string;
};

const KIND_OF_USE: Partial<Record<ReadingColumn['use'], CellKind>> = {
  reading: 'number',
  value: 'number',
  ignored: 'skipped',
};

/** The cells of a line and its time, which all layouts have. */
export class PlainCells {
  readonly cells: LineCells;
  readonly #time: ByteTime;
  readonly #timeField: number;
  readonly #dateField: number;
  readonly #numberFields: number[];
  readonly #statusNumbers: Set<number>;

  constructor({ columns, delimiter, decimalSign, time, statusWords }: PlainContext) {
    const kinds = columns.map(({ use }) => KIND_OF_USE[use] ?? 'text');
    this.cells = new LineCells(kinds, { delimiter, decimalSign });
    this.#time = new ByteTime(time);
    const { field, dateField } = timePlace(columns);
    this.#timeField = field;
    this.#dateField = dateField;
    this.#numberFields = kinds.flatMap((kind, at) => (kind === 'number' ? [at] : []));
    const numbers = statusWords.numbers.map((word) => readDecimal(word, decimalSign));
    this.#statusNumbers = new Set(numbers.filter((number) => !Number.isNaN(number)));
  }

  /** Takes a line apart. False where a cell is not plain, or holds a number that stands for no value. */
  read(bytes: Uint8Array, from: number, end: number): boolean {
    if (!this.cells.read(bytes, from, end)) return false;
    return this.#statusNumbers.size === 0 || !this.#hasStatus();
  }

  /** The line's instant [ms]; NaN where its time is not plain. */
  time(): number {
    const { bytes, from, to } = this.cells;
    const field = this.#timeField;
    const date = this.#dateField;
    if (date < 0) return this.#time.instant(bytes, from[field]!, to[field]!);
    return this.#time.pairedInstant(bytes, [from[date]!, to[date]!], [from[field]!, to[field]!]);
  }

  #hasStatus(): boolean {
    return this.#numberFields.some((field) => this.#statusNumbers.has(this.cells.values[field]!));
  }
}
