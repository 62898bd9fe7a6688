import type { LongRows } from '../long-rows';
import { ByteNames } from './byte-names';
import { PlainCells, type PlainContext, type PlainRow } from './plain-row';

/** Keeps the names of a sensor apart; no plain cell has it. */
const LINE_FEED = 10;
/** Bytes of the names that a row may have. */
const MOST_NAMES = 1024;

/** Plain rows of one sensor and time each: what `LongRows` makes of the same line. */
export class PlainLongRow implements PlainRow {
  readonly #context: PlainContext;
  readonly #plain: PlainCells;
  readonly #valueField: number;
  /** Columns that say whose sensor it is, in the order in which `LongRows` is asked; -1 where the file has none. */
  readonly #nameFields: number[];
  readonly #sensors: ByteNames<ReturnType<LongRows['sensorNamed']>>;
  // Each of the three is ended by a line feed.
  readonly #names = new Uint8Array(MOST_NAMES + 3);

  constructor(context: PlainContext, rows: LongRows) {
    const fieldOf = (use: string) => context.columns.findIndex((column) => column.use === use);
    this.#context = context;
    this.#plain = new PlainCells(context);
    this.#valueField = fieldOf('value');
    this.#nameFields = ['sensor', 'unit', 'tag'].map(fieldOf);
    this.#sensors = new ByteNames((bytes) => {
      const [name = '', unit = '', tag = ''] = context.decode(bytes).split('\n');
      return rows.sensorNamed({
        name: name.trim(),
        unit: unit.trim(),
        tag: this.#nameFields[2]! < 0 ? null : tag.trim(),
      });
    });
  }

  take(bytes: Uint8Array, { from, end, number }: { from: number; end: number; number: number }): boolean {
    if (!this.#plain.read(bytes, from, end)) return false;
    const value = this.#plain.cells.values[this.#valueField]!;
    if (Number.isNaN(value)) return false;
    const time = this.#plain.time();
    const length = Number.isNaN(time) ? -1 : this.#gatherNames();
    if (length < 0) return false;
    const found = this.#sensors.find(this.#names, 0, length);
    const { builder } = this.#context;
    if (found !== null) {
      if ('reason' in found) return false;
      builder.columns[found.sensor]![builder.row] = value * found.factor + found.offset;
      builder.keep(found.tag, time, found.basisBit, number);
    }
    builder.countRow();
    return true;
  }

  /** Puts the row's names behind each other; returns their length, -1 where they are too long. */
  #gatherNames(): number {
    const { bytes, from, to } = this.#plain.cells;
    const names = this.#names;
    let length = 0;
    for (const field of this.#nameFields) {
      if (field >= 0) {
        const [begin, end] = [from[field]!, to[field]!];
        if (length + end - begin > MOST_NAMES) return -1;
        for (let at = begin; at < end; at++) names[length++] = bytes[at]!;
      }
      names[length++] = LINE_FEED;
    }
    return length;
  }
}
