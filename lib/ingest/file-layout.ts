import type { Fault } from '@/lib/contract/app-error';
import { makeSuggest } from '@/lib/contract/nearest-name';
import { plainName } from '@/lib/contract/plain-name';
import { isLongHeader, readColumnName, sensorNamed, tagField } from './column-name';
import type { Header } from './find-header';
import { type AddFault, mappedSensor, readingColumn } from './reading-column';
import type { ColumnUse, FileKind, Layout, ReadingColumn, ReadingOptions } from './reading-format';
import { unitWithoutBrackets } from './sensor-unit';
import { timeColumns } from './time-columns';

const LONG_NAMES: Record<string, ColumnUse> = {
  sensor: 'sensor',
  value: 'value',
  unit: 'unit',
  units: 'unit',
};
/** Faults reported by name; a wrong mapping of a thousand columns needs no thousand messages. */
const MAX_FAULTS = 20;

/**
 * What each column of a header holds. Columns `sensor` and `value` make a long file, else one of tags makes a canonical
 * one, anything else is plant-wide;
 * the rows below tell a date beside a time of day. Nothing is refused here: the import screen shows the faults beside the columns.
 */
export function readLayout(
  { names: header, units, line, descriptions }: Pick<Header, 'names' | 'units' | 'line' | 'descriptions'>,
  options: ReadingOptions,
  rows: readonly string[][] = [],
): Layout {
  const names = header.map((cell) => plainName(readColumnName(cell).name));
  const tagAt = fieldOfTags({ header, names }, options);
  const kind: FileKind = isLongHeader(names) ? 'long' : tagAt < 0 ? 'plant-wide' : 'canonical';
  const { timeAt, dateAt } = timeColumns({ header, names, rows }, options.mapping);
  const faults: Fault[] = [];
  const addFault: AddFault = (field, message) => {
    if (faults.length < MAX_FAULTS) faults.push({ field: field.trim(), line, message: message() });
  };
  const context = { kind, options, suggest: makeSuggest(), addFault };
  const columns = header.map((cell, i) => {
    const fixed =
      i === timeAt ? 'time' : i === dateAt ? 'date' : i === tagAt ? 'tag' : fixedUse(names[i]!, kind);
    const unit = unitWithoutBrackets(units?.[i] ?? '');
    const column =
      fixed === null ? readingColumn({ cell, unitCell: unit }, context) : fixedColumn(cell, fixed, unit);
    return { ...column, description: descriptions[i] ?? '' };
  });
  for (const fault of missingColumns(kind, columns, options)) addFault(fault.field, () => fault.message);
  for (const column of repeated(columns)) {
    addFault(column.name, () => 'holds the same as a column before it; keep one');
  }
  return { kind, columns, faults };
}

/** A column that only may be the one of tags is what the mapping says, where the mapping speaks of it. */
function fieldOfTags(
  { header, names }: { header: readonly string[]; names: string[] },
  options: ReadingOptions,
): number {
  const field = tagField(header);
  if (field < 0 || (names[field] === 'tag' && !isLongHeader(names))) return field;
  return mappedSensor(header[field]!, options) === undefined ? field : -1;
}

function fixedUse(name: string, kind: FileKind): ColumnUse | null {
  if (name === '') return 'ignored';
  return kind === 'long' && Object.hasOwn(LONG_NAMES, name) ? LONG_NAMES[name]! : null;
}

function fixedColumn(cell: string, use: ColumnUse, unitCell: string): ReadingColumn {
  return {
    name: cell,
    use,
    tag: null,
    sensor: null,
    unit: use === 'value' ? (readColumnName(cell).unit ?? (unitCell || null)) : null,
  };
}

function missingColumns(kind: FileKind, columns: ReadingColumn[], options: ReadingOptions): Fault[] {
  const faults: Fault[] = [];
  if (!columns.some((column) => column.use === 'time')) {
    const wanted = options.mapping?.timeColumn;
    const message = wanted
      ? `the mapping names "${wanted.slice(0, 60)}" as time column, but the header has no such column`
      : 'there is no column of times; name it "time", or name it as timeColumn in a mapping';
    faults.push({ field: 'time', message });
  }
  const date = options.mapping?.dateColumn;
  if (date !== undefined && !columns.some((column) => column.use === 'date')) {
    const message = `the mapping names "${date.slice(0, 60)}" as column of dates, but the header has no such column beside the one of times`;
    faults.push({ field: 'date', message });
  }
  const isEmpty = !columns.some((column) => ['reading', 'unknown', 'value'].includes(column.use));
  if (isEmpty) {
    const message = 'there is no column of readings; name them such as hot_in[Cel], or give a mapping';
    faults.push({ field: 'header', message });
  }
  if (kind === 'plant-wide' && columns.some((column) => isBareSensor(column))) {
    const message =
      'there is no column "tag" that says which unit each row belongs to; add it, or give a mapping';
    faults.push({ field: 'tag', message });
  }
  return faults;
}

/** `hot_in` alone: a canonical column in a file that does not say whose it is. */
function isBareSensor(column: ReadingColumn): boolean {
  return column.use === 'unknown' && sensorNamed(readColumnName(column.name).name) !== null;
}

/** Columns that hold what one before them holds already. */
function repeated(columns: ReadingColumn[]): ReadingColumn[] {
  const seen = new Set<string>();
  return columns.filter((column) => {
    if (column.use === 'ignored' || column.use === 'unknown') return false;
    const key = JSON.stringify([column.use, column.tag, column.sensor]);
    const isRepeated = seen.has(key);
    seen.add(key);
    return isRepeated;
  });
}
