import type { Fault } from '@/lib/contract/app-error';
import { plainName, readColumnName, sensorNamed } from './column-name';
import { makeSuggest } from './nearest-name';
import { type AddFault, readingColumn } from './reading-column';
import type { ColumnUse, FileKind, Layout, ReadingColumn, ReadingOptions } from './reading-format';

const TIME_NAMES = new Set(['time', 'timestamp', 'datetime']);
const LONG_NAMES: Record<string, ColumnUse> = {
  sensor: 'sensor',
  value: 'value',
  unit: 'unit',
  units: 'unit',
};
/** Faults reported by name; a wrong mapping of a thousand columns needs no thousand messages. */
const MAX_FAULTS = 20;

/**
 * What each column of a header holds. Columns `sensor` and `value` make a long file, a column `tag` a canonical one,
 * anything else is plant-wide. Nothing is refused here: the import screen shows the faults beside the columns.
 */
export function readLayout(header: readonly string[], line: number, options: ReadingOptions): Layout {
  const names = header.map((cell) => plainName(readColumnName(cell).name));
  const kind = kindOf(names);
  const timeAt = timeColumn(header, names, options);
  const faults: Fault[] = [];
  const addFault: AddFault = (field, message) => {
    if (faults.length < MAX_FAULTS) faults.push({ field: field.trim(), line, message: message() });
  };
  const context = { kind, options, suggest: makeSuggest(), addFault };
  const columns = header.map((cell, i) => {
    const fixed = i === timeAt ? 'time' : fixedUse(names[i]!, kind);
    return fixed === null ? readingColumn(cell, context) : fixedColumn(cell, fixed);
  });
  for (const fault of missingColumns(kind, columns, options)) addFault(fault.field, () => fault.message);
  for (const column of repeated(columns)) {
    addFault(column.name, () => 'holds the same as a column before it; keep one');
  }
  return { kind, columns, faults };
}

function kindOf(names: string[]): FileKind {
  if (names.includes('sensor') && names.includes('value')) return 'long';
  return names.includes('tag') ? 'canonical' : 'plant-wide';
}

function timeColumn(header: readonly string[], names: string[], options: ReadingOptions): number {
  const wanted = options.mapping?.timeColumn;
  if (wanted === undefined) return names.findIndex((name) => TIME_NAMES.has(name));
  const exact = header.findIndex((cell) => cell.trim() === wanted.trim());
  return exact >= 0 ? exact : names.indexOf(plainName(wanted));
}

function fixedUse(name: string, kind: FileKind): ColumnUse | null {
  if (name === '') return 'ignored';
  if (kind === 'canonical' && name === 'tag') return 'tag';
  return kind === 'long' && Object.hasOwn(LONG_NAMES, name) ? LONG_NAMES[name]! : null;
}

function fixedColumn(cell: string, use: ColumnUse): ReadingColumn {
  return {
    name: cell,
    use,
    tag: null,
    sensor: null,
    unit: use === 'value' ? readColumnName(cell).unit : null,
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
