import type { Sensor } from '@/lib/core/exchange/exchanger';
import { readColumnName, sensorNamed, tagAndSensor } from '../column-name';
import type { ReadingPreview } from '../preview-readings';
import type { ReadingColumn } from '../reading-format';
import type { StatusWords } from '../status-words';
import { isTimeText } from '../time-text';
import { type CellReading, type ColumnSample, emptySample, takeCell } from './column-sample';
import { nameAndUnit } from './written-unit';

export type Samples = {
  samples: ColumnSample[];
  /** Unit and sensor pairs that the header itself names. */
  taken: { tag: string; sensor: Sensor }[];
  /** The column whose cells are times, where none is named so. */
  timeColumn: string | null;
};

/** Names of a long file that are told apart at most. */
const MOST_NAMES = 10_000;
/** Share of a column's cells that must be times for it to be the column of times. */
const TIMES_SHARE = 0.9;

/** The columns, or the sensors of a long file, that its header leaves unexplained, with the cells looked at. */
export function gatherSamples(
  { format, rows }: ReadingPreview,
  { knownTags, status }: { knownTags: ReadonlySet<string>; status: StatusWords },
): Samples {
  const { kind, columns, decimalComma } = format;
  const reading = { decimalComma, status };
  const cells = rows.map((row) => row.cells);
  if (kind === 'long') {
    const samples = longSamples(columns, cells, reading);
    const hasTags = columns.some(({ use }) => use === 'tag');
    const open = samples.filter((sample) => {
      const { name } = readColumnName(sample.name);
      const isNamed = hasTags && sensorNamed(name) !== null;
      return !isNamed && !knownTags.has(tagAndSensor(name)?.tag ?? '');
    });
    return { samples: open, taken: [], timeColumn: null };
  }
  const taken = columns.flatMap(({ use, tag, sensor }) =>
    use === 'reading' && tag !== null && sensor !== null ? [{ tag, sensor }] : [],
  );
  const timeColumn = columns.some(({ use }) => use === 'time') ? null : columnOfTimes(columns, cells);
  const samples: ColumnSample[] = [];
  for (const [field, column] of columns.entries()) {
    if (column.use !== 'unknown' || column.name === timeColumn) continue;
    const sample = emptySample({
      name: column.name,
      description: column.description ?? '',
      unit: column.unit ?? nameAndUnit(column.name).unit,
    });
    for (const row of cells) takeCell(sample, (row[field] ?? '').trim(), reading);
    samples.push(sample);
  }
  return { samples, taken, timeColumn };
}

function longSamples(
  columns: readonly ReadingColumn[],
  cells: readonly string[][],
  reading: CellReading,
): ColumnSample[] {
  const fieldOf = (use: string) => columns.findIndex((column) => column.use === use);
  const [sensorAt, valueAt, unitAt] = [fieldOf('sensor'), fieldOf('value'), fieldOf('unit')];
  const headUnit = columns[valueAt]?.unit ?? null;
  const byName = new Map<string, ColumnSample>();
  for (const row of cells) {
    const name = (row[sensorAt] ?? '').trim();
    if (name === '') continue;
    let sample = byName.get(name);
    if (sample === undefined) {
      if (byName.size >= MOST_NAMES) continue;
      const unit = unitAt < 0 ? headUnit : (row[unitAt] ?? '').trim() || headUnit;
      sample = emptySample({ name, description: '', unit });
      byName.set(name, sample);
    }
    takeCell(sample, (row[valueAt] ?? '').trim(), reading);
  }
  return [...byName.values()];
}

function columnOfTimes(columns: readonly ReadingColumn[], cells: readonly string[][]): string | null {
  const field = columns.findIndex((_, i) => {
    const filled = cells.map((row) => row[i] ?? '').filter((cell) => cell !== '');
    const times = filled.filter(isTimeText).length;
    return filled.length > 0 && times >= filled.length * TIMES_SHARE;
  });
  return columns[field]?.name ?? null;
}
