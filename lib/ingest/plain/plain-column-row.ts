import { type UnitColumns, unitColumns } from '../column-rows';
import { ByteNames } from './byte-names';
import { PlainCells, type PlainContext, type PlainRow } from './plain-row';

/** Plain rows with a column per sensor, canonical and plant-wide: what `ColumnRows` makes of the same line. */
export class PlainColumnRow implements PlainRow {
  readonly #context: PlainContext;
  readonly #plain: PlainCells;
  readonly #units: UnitColumns[];
  readonly #tagField: number;
  readonly #tags: ByteNames<number>;

  constructor(context: PlainContext) {
    this.#context = context;
    this.#plain = new PlainCells(context);
    this.#units = unitColumns(context.columns);
    this.#tagField = context.columns.findIndex((column) => column.use === 'tag');
    this.#tags = new ByteNames((bytes) => context.builder.tagIndex(context.decode(bytes).trim()));
  }

  take(bytes: Uint8Array, { from, end, number }: { from: number; end: number; number: number }): boolean {
    if (!this.#plain.read(bytes, from, end)) return false;
    const time = this.#plain.time();
    if (Number.isNaN(time)) return false;
    const { builder } = this.#context;
    let kept = 0;
    for (const unit of this.#units) {
      const tag = unit.tag === null ? this.#tagOfRow() : builder.tagIndex(unit.tag);
      if (tag < 0) return false;
      const basis = this.#readUnit(unit);
      if (basis < 0) continue;
      builder.keep(tag, time, basis, number);
      kept++;
    }
    if (kept === 0) return false;
    builder.countRow();
    return true;
  }

  /** Writes one unit's values; returns its flow basis, or -1 where it has none. */
  #readUnit({ measured }: UnitColumns): number {
    const { builder } = this.#context;
    const { columns, row } = builder;
    const { values } = this.#plain.cells;
    let basis = -1;
    for (const { field, sensor, factor, offset, basisBit } of measured) {
      const value = values[field]!;
      if (Number.isNaN(value)) continue;
      columns[sensor]![row] = value * factor + offset;
      basis = basis < 0 ? basisBit : basis | basisBit;
    }
    return basis;
  }

  /** Number of the unit the row names. */
  #tagOfRow(): number {
    const { bytes, from, to } = this.#plain.cells;
    return this.#tags.find(bytes, from[this.#tagField]!, to[this.#tagField]!);
  }
}
