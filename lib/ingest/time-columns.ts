import type { Mapping } from '@/lib/contract/mapping';
import { plainName } from '@/lib/contract/plain-name';
import { isDateName, isTimeName } from './header-words';
import { TimeScanner } from './time-scanner';

/** Fields of the column of times, and of the one of dates beside it; -1 where there is none. */
export type TimeColumns = { timeAt: number; dateAt: number };

type Found = { header: readonly string[]; names: readonly string[]; rows: readonly string[][] };

/** Rows looked at. */
const MAX_ROWS = 200;

/**
 * Where the times stand: in the column a mapping names, else the first that is named so, else one of dates whose cells
 * have a time of day too. A column of dates beside one of times of day belongs to it where the cells are such.
 */
export function timeColumns(found: Found, mapping: Mapping | null): TimeColumns {
  const { names } = found;
  const { timeColumn, dateColumn } = mapping ?? {};
  const isNamed = timeColumn !== undefined;
  let timeAt = isNamed ? fieldOf(found, timeColumn) : names.findIndex((name) => isTimeName(name));
  if (dateColumn !== undefined) return { timeAt, dateAt: fieldOf(found, dateColumn) };
  if (timeAt < 0 && !isNamed) timeAt = dateField(found, 'moment');
  const isClock = timeAt >= 0 && mostly(found.rows, timeAt, (cell, scanner) => scanner.scanClock(cell));
  return { timeAt, dateAt: isClock ? dateField(found, 'date') : -1 };
}

/** The field of a column that a mapping names; -1 where the header has none. */
function fieldOf({ header, names }: Found, wanted: string): number {
  const exact = header.findIndex((cell) => cell.trim() === wanted.trim());
  return exact >= 0 ? exact : names.indexOf(plainName(wanted));
}

function dateField({ names, rows }: Found, kind: 'date' | 'moment'): number {
  return names.findIndex(
    (name, field) => isDateName(name) && mostly(rows, field, (cell, scanner) => scanner.scan(cell) === kind),
  );
}

function mostly(
  rows: readonly string[][],
  field: number,
  test: (cell: string, scanner: TimeScanner) => boolean,
): boolean {
  const scanner = new TimeScanner();
  const filled = rows.slice(0, MAX_ROWS).filter((cells) => (cells[field] ?? '') !== '');
  return filled.filter((cells) => test(cells[field]!, scanner)).length * 2 > filled.length;
}
