import { getCellAddress } from 'write-excel-file/utility';
import type { Json } from '@/lib/contract/fleet-sheet/paths';
import { NOTE_MARK, UNIT_ROW_MARK } from '@/lib/contract/fleet-sheet/sheet-column';
import { unitNamed } from '@/lib/contract/fleet-sheet/unit-words';
import type { Suggest } from '@/lib/contract/nearest-name';
import type { WorkbookCell, WorkbookSheet } from '../xlsx/workbook';
import { type FoundTable, keyOf, knownHeadings } from './find-table';
import { cleanText, NO_UNIT, noSuchUnit, readCell } from './read-cell';
import type { FoundColumn, SheetFault, SheetRow, SheetRows } from './sheet-rows';

type Reading = { faults: SheetFault[]; notes: string[]; suggest: Suggest; decimalComma: boolean | null };

/** Reads the rows below the headings of a sheet. What is wrong is added to the faults, what is passed over to the notes. */
export function readTable(sheet: WorkbookSheet, found: FoundTable, reading: Reading): SheetRows {
  const columns = columnsOf(sheet, found, reading);
  const rows: SheetRow[] = [];
  const below = sheet.rows.slice(found.headingRow + 1);
  const unitless = new Set<string>();
  for (const [i, cells] of below.entries()) {
    if (isPassedOver(cells, found)) continue;
    const place = { sheet: sheet.name, row: found.headingRow + 2 + i, cells };
    const row = readRow(place, columns, { ...reading, unitless });
    if (row.values.size > 0 || row.unread.size > 0) rows.push(row);
  }
  return { table: found.table, sheet: sheet.name, rows };
}

/** Blank rows, the row of units, the example, and notes in round brackets. */
function isPassedOver(cells: WorkbookCell[], found: FoundTable): boolean {
  const marks = marksOf(cells, found);
  return marks.length === 0 || marks.some((mark) => mark.startsWith(NOTE_MARK)) || isUnitRow(cells, found);
}

/** What a mark may stand in, columns moved or not: the first cell of a row, and the one that says what the row is about. */
function marksOf(
  cells: WorkbookCell[],
  { table, headings }: Pick<FoundTable, 'table' | 'headings'>,
): string[] {
  const first = cells.find((cell) => cell !== null && cell !== '') ?? null;
  const key = headings.find(({ column }) => column?.path === keyOf(table));
  const about = key === undefined ? null : (cells[key.index] ?? null);
  return [first, about].flatMap((cell) => {
    if (cell === null) return [];
    return [typeof cell === 'string' ? cleanText(cell).toLowerCase() : ''];
  });
}

function columnsOf(
  sheet: WorkbookSheet,
  found: FoundTable,
  { faults, notes, suggest }: Reading,
): Map<string, FoundColumn> {
  const columns = new Map<string, FoundColumn>();
  const unitRow = sheet.rows.findIndex(
    (cells, i) => i > found.headingRow && i <= found.headingRow + 3 && isUnitRow(cells, found),
  );
  for (const { text, index, column, unit } of found.headings) {
    const at = { sheet: sheet.name, row: found.headingRow + 1, index, heading: column?.heading ?? text };
    if (column === null) {
      notes.push(
        `${sheet.name}!${getCellAddress(at.row - 1, index)}: the column "${text.slice(0, 60)}" is not known here and was left out${suggest(text, knownHeadings(found.table)).replace(/; $/, '')}`,
      );
    } else if (columns.has(column.path)) {
      faults.push(faultAt(at, 'stands twice; keep one of the columns'));
    } else {
      const written = unitRow < 0 ? null : (sheet.rows[unitRow]![index] ?? null);
      const stated = typeof written === 'string' && cleanText(written) !== '' ? cleanText(written) : unit;
      const code = stated === null || column.unit === null ? null : unitNamed(column.kind, stated);
      if (stated !== null && column.unit !== null && code === null) {
        const row = typeof written === 'string' ? unitRow + 1 : at.row;
        faults.push(faultAt({ ...at, row }, noSuchUnit(column.kind, stated)));
      }
      // A unit that cannot be read is told once: the cells are read in the usual one, to find what else is wrong.
      const isRefused = stated !== null && code === null;
      columns.set(column.path, { column, index, unit: isRefused ? (column.unit?.si ?? null) : code });
    }
  }
  return columns;
}

/** The row of units begins with its mark; one without the mark holds nothing but units, and not what a row is about. */
function isUnitRow(
  cells: WorkbookCell[],
  { table, headings }: Pick<FoundTable, 'table' | 'headings'>,
): boolean {
  if (marksOf(cells, { table, headings }).includes(UNIT_ROW_MARK)) return true;
  const key = headings.find(({ column }) => column?.path === keyOf(table));
  if (key !== undefined && (cells[key.index] ?? null) !== null) return false;
  const filled = headings.filter(({ index }) => (cells[index] ?? null) !== null);
  return (
    filled.length > 0 &&
    filled.every(({ index, column }) => {
      const cell = cells[index];
      return column?.unit != null && typeof cell === 'string' && unitNamed(column.kind, cell) !== null;
    })
  );
}

function readRow(
  { sheet, row, cells }: { sheet: string; row: number; cells: WorkbookCell[] },
  columns: ReadonlyMap<string, FoundColumn>,
  { faults, suggest, decimalComma, unitless }: Reading & { unitless: Set<string> },
): SheetRow {
  const values = new Map<string, Json>();
  const unread = new Set<string>();
  const found: SheetFault[] = [];
  for (const [path, { column, index, unit }] of columns) {
    const reading = readCell(column, cells[index] ?? null, { unit, suggest, decimalComma });
    if ('value' in reading) {
      if (reading.value !== undefined) values.set(path, reading.value);
      continue;
    }
    unread.add(path);
    const at = { sheet, row, index, heading: column.heading };
    if (reading.fault !== NO_UNIT) found.push(faultAt(at, reading.fault));
    else if (!unitless.has(path)) {
      unitless.add(path);
      const message = `has no unit of measure; write it in the row ${UNIT_ROW_MARK} below the headings, or behind the value`;
      found.push(faultAt(at, message));
    }
  }
  const read = { sheet, row, values, columns, unread };
  faults.push(...found.map((fault) => ({ ...fault, tag: tagOf(read) })));
  return read;
}

function faultAt(
  { sheet, row, index, heading }: { sheet: string; row: number; index: number; heading: string },
  message: string,
): SheetFault {
  return { sheet, row, cell: getCellAddress(row - 1, index), heading, tag: null, message };
}

/** A fault of a row at one of its columns; at the first cell of the row where that column is not there. */
export function rowFault(row: SheetRow, path: string | null, message: string): SheetFault {
  const found = (path === null ? undefined : row.columns.get(path)) ?? [...row.columns.values()][0]!;
  const at = { sheet: row.sheet, row: row.row, index: found.index, heading: found.column.heading };
  return { ...faultAt(at, message), tag: tagOf(row) };
}

function tagOf(row: SheetRow): string | null {
  const tag = row.values.get('tag');
  return typeof tag === 'string' ? tag : null;
}
