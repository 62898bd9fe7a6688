import type { Suggest } from '@/lib/contract/nearest-name';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import type { ChunkBuilder, RowAt } from './chunk-builder';
import { readDecimal } from './read-decimal';
import { nameOfReading, unknownTag } from './reading-column';
import type { ReadingColumn, ReadingOptions } from './reading-format';
import { numberFault, type RowReader } from './row-reader';
import { sensorUnit } from './sensor-unit';
import type { StatusWords } from './status-words';
import type { TimeField } from './time-field';

/** A column of readings made ready for the loop: field number, sensor number and conversion to SI. */
type Measured = {
  field: number;
  sensor: number;
  name: string;
  factor: number;
  offset: number;
  basisBit: number;
};

/** The columns of one unit; of the unit that the row names where `tag` is null. */
export type UnitColumns = { tag: string | null; measured: Measured[] };

type Bad = { unit: UnitColumns; measured: Measured };

export type RowContext = {
  columns: ReadingColumn[];
  decimalSign: number;
  time: TimeField;
  options: ReadingOptions;
  builder: ChunkBuilder;
  suggest: Suggest;
  statusWords: StatusWords;
};

/**
 * Rows with a column per sensor: canonical files, where the row names its unit, and plant-wide files, where the column
 * does. A cell with a status word is one that was not measured. Any other that is no number sets aside its unit's reading; in a plant-wide row the other units are still read,
 * or one broken sensor would cost the whole plant its data.
 */
export class ColumnRows implements RowReader {
  readonly #units: UnitColumns[];
  readonly #tagField: number;
  readonly #context: RowContext;

  constructor(context: RowContext) {
    this.#context = context;
    this.#units = unitColumns(context.columns);
    this.#tagField = context.columns.findIndex((column) => column.use === 'tag');
  }

  take(cells: string[], at: RowAt): void {
    const { builder, time: timeField } = this.#context;
    const time = timeField.read(cells, at, builder);
    if (Number.isNaN(time)) return;
    let kept = 0;
    let bad: Bad[] | null = null;
    for (const unit of this.#units) {
      const tag = unit.tag === null ? this.#tagOfRow(cells, at) : builder.tagIndex(unit.tag);
      if (tag < 0) return;
      const found = this.#readUnit(cells, unit);
      if (found === 'none') continue;
      if (typeof found === 'number') {
        builder.keep(tag, time, found, at.line);
        kept++;
      } else {
        builder.clear();
        bad = [...(bad ?? []), { unit, measured: found }];
      }
    }
    if (bad !== null) this.#setAside(cells, at, bad);
    else if (kept === 0)
      builder.setAside(at, 'no-values', null, 'no column of readings has a value in this row');
  }

  /** Writes one unit's values; returns its flow basis, or the column that holds no number. */
  #readUnit(cells: string[], unit: UnitColumns): number | 'none' | Measured {
    const { builder, decimalSign, statusWords } = this.#context;
    const { columns, row } = builder;
    let basis = 0;
    let values = 0;
    for (const measured of unit.measured) {
      const cell = cells[measured.field]!;
      if (cell === '' || (statusWords.holdsNumbers && this.#isStatus(cell))) continue;
      const value = readDecimal(cell, decimalSign) * measured.factor + measured.offset;
      if (!Number.isFinite(value)) {
        if (this.#isStatus(cell)) continue;
        return measured;
      }
      columns[measured.sensor]![row] = value;
      basis |= measured.basisBit;
      values++;
    }
    return values === 0 ? 'none' : basis;
  }

  /** Counts a status word: its cell was not measured. */
  #isStatus(cell: string): boolean {
    const { builder, statusWords } = this.#context;
    const word = statusWords.wordOf(cell);
    if (word !== null) builder.countStatus(word);
    return word !== null;
  }

  /** Number of the unit the row names. */
  #tagOfRow(cells: string[], at: RowAt): number {
    const { builder, options, suggest } = this.#context;
    const tag = cells[this.#tagField]!;
    const index = builder.tagIndex(tag);
    if (index < 0) builder.setAside(at, 'unknown-tag', 'tag', unknownTag(tag, options, suggest));
    return index;
  }

  #setAside(cells: string[], at: RowAt, bad: Bad[]): void {
    const { unit, measured } = bad[0]!;
    const fault = numberFault(cells[measured.field]!, this.#context.decimalSign);
    const left = unit.tag === null ? '' : `; set aside of this row: ${listed(bad)}`;
    this.#context.builder.setAside(at, 'value-not-a-number', measured.name, fault + left);
  }
}

/** Units named in a message at most. */
const MAX_LISTED = 5;

function listed(bad: Bad[]): string {
  const tags = bad.slice(0, MAX_LISTED).map(({ unit }) => unit.tag);
  return tags.join(', ') + (bad.length > MAX_LISTED ? ` and ${bad.length - MAX_LISTED} more units` : '');
}

/** The columns of readings by unit. */
export function unitColumns(columns: ReadingColumn[]): UnitColumns[] {
  const units = new Map<string | null, UnitColumns>();
  for (const [field, column] of columns.entries()) {
    if (column.use !== 'reading') continue;
    const { tag, sensor, unit } = column;
    const conversion = sensorUnit(sensor!, unit!)!;
    const name = nameOfReading(column);
    const group = units.get(tag) ?? { tag, measured: [] };
    group.measured.push({ field, sensor: SENSORS.indexOf(sensor!), name, ...conversion });
    units.set(tag, group);
  }
  return [...units.values()];
}
