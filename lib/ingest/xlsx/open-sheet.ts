import type { ByteStream } from '../byte-stream';
import { readLayout } from '../file-layout';
import { findHeader, HEADER_SEARCHED_ROWS, type Header, type HeadRecord } from '../find-header';
import { type FoundTimes, plainTimes } from '../found-times';
import type { OpenReadings } from '../open-readings';
import type { Line } from '../read-cells';
import type { Layout, ReadingOptions } from '../reading-format';
import { usesDecimalComma } from '../sniff-dialect';
import { unreadable } from '../text-encoding';
import { isTimeText } from '../time-text';
import { gatherWorkbook, workbookLines } from './open-workbook';
import { WORKBOOK_LIMITS, type WorkbookCell, type WorkbookLine } from './workbook';

/** Rows looked at before reading, and their characters at most. */
const HEAD_ROWS = 200;
const HEAD_CHARACTERS = 4 * 1_048_576;
/** Rows handed on at a time. */
const BATCH_ROWS = 512;

/** A row as it was in the sheet; null where its text is longer than 1 MiB. */
type Row = { row: number; cells: WorkbookCell[] | null };
type SheetHead = { name: string; rows: Row[]; next: WorkbookLine | null };
type Found = { name: string; rows: Row[]; header: Header; layout: Layout };

/**
 * Opens the first sheet of a workbook that holds a table of readings: a column of times and another column. Its rows are
 * the same lines that a text file has, their number being that of the row.
 */
export async function openSheet(bytes: ByteStream, options: ReadingOptions): Promise<OpenReadings> {
  const file = await gatherWorkbook(bytes.pieces, WORKBOOK_LIMITS);
  await bytes.close();
  const source = workbookLines(file, WORKBOOK_LIMITS);
  try {
    const found = await findSheet(source, options);
    const times = plainTimes(options.mapping?.timeFormat);
    return openFound(found, source, { compressed: bytes.compressed, times });
  } catch (error) {
    await source.return(undefined);
    throw error;
  }
}

async function findSheet(source: AsyncGenerator<WorkbookLine>, options: ReadingOptions): Promise<Found> {
  let first: Found | null = null;
  let line = await nextLine(source);
  while (line !== null) {
    const head = await readHead(source, line);
    line = head.next;
    const found = head.rows.some(({ cells }) => !isBlank(cells)) ? readSheet(head, options) : null;
    if (found !== null && isTable(found)) return found;
    first ??= found;
    while (line !== null && !isSheetName(line)) line = await nextLine(source);
  }
  // What stands in the way is said of the first sheet; its rows have gone by and are not read.
  if (first !== null && first.layout.faults.length > 0) return first;
  throw unreadable('The workbook holds no table of readings; it needs a row of names and rows below it');
}

function openFound(
  { name, rows, header, layout }: Found,
  source: AsyncGenerator<WorkbookLine>,
  { compressed, times }: { compressed: boolean; times: FoundTimes },
): OpenReadings {
  const decimalComma = usesDecimalComma(rows.map(textCells), '\t');
  const { kind, columns } = layout;
  return {
    format: {
      kind,
      container: 'workbook',
      sheet: name,
      headerRows: header.rows,
      delimiter: '\t',
      decimalComma,
      encoding: 'utf-8',
      compressed,
      columns,
      times,
    },
    layout,
    lines: linesBehind(header, { rows, source, decimalComma, width: columns.length }),
    text: null,
    close: async () => {
      await source.return(undefined);
    },
  };
}

type Rows = { rows: Row[]; source: AsyncGenerator<WorkbookLine>; decimalComma: boolean; width: number };

async function* linesBehind(
  header: Header,
  { rows, source, decimalComma, width }: Rows,
): AsyncGenerator<Line[]> {
  const lineOf = (row: Row) => sheetLine(row, decimalComma, width);
  yield rows.filter(({ row }) => row > header.last).map(lineOf);
  let batch: Line[] = [];
  let row = rows.at(-1)!.row;
  for (
    let line = await nextLine(source);
    line !== null && !isSheetName(line);
    line = await nextLine(source)
  ) {
    row++;
    batch.push(lineOf({ row, cells: Array.isArray(line) ? line : null }));
    if (batch.length < BATCH_ROWS) continue;
    yield batch;
    batch = [];
  }
  yield batch;
}

/** The first rows of a sheet, and the line behind them. */
async function readHead(source: AsyncGenerator<WorkbookLine>, begin: WorkbookLine): Promise<SheetHead> {
  const name = isSheetName(begin) ? begin.sheet : '';
  const rows: Row[] = [];
  let characters = 0;
  while (rows.length < HEAD_ROWS && characters < HEAD_CHARACTERS) {
    const line = await nextLine(source);
    if (line === null || isSheetName(line)) return { name, rows, next: line };
    const cells = Array.isArray(line) ? line : null;
    rows.push({ row: rows.length + 1, cells });
    for (const cell of cells ?? []) characters += typeof cell === 'string' ? cell.length : 8;
  }
  // Any line that is no sheet's name does: what comes next is asked for where it is needed.
  return { name, rows, next: [] };
}

function readSheet({ name, rows }: SheetHead, options: ReadingOptions): Found {
  const records = rows
    .filter(({ cells }) => !isBlank(cells))
    .slice(0, HEADER_SEARCHED_ROWS)
    .map((row): HeadRecord => ({ line: row.row, last: row.row, cells: cellTexts(row.cells ?? [], false) }));
  const header = findHeader(records, options.mapping);
  const lastNamed = header.names.findLastIndex((cell) => cell !== '');
  const named = { ...header, names: header.names.slice(0, lastNamed + 1) };
  return { name, rows, header: named, layout: readLayout(named, options) };
}

/** Columns that somebody knows make a table of readings; such that nobody knows yet, where several rows have a time. */
function isTable({ layout: { columns }, rows }: Found): boolean {
  const timeAt = columns.findIndex(({ use }) => use === 'time');
  if (timeAt < 0) return false;
  if (columns.some(({ use }) => use === 'reading' || use === 'value')) return true;
  const times = rows.filter(({ cells }) => isTimeText(cellTexts(cells ?? [], false)[timeAt] ?? ''));
  return times.length > 1 && columns.some(({ use }) => use === 'unknown');
}

async function nextLine(source: AsyncGenerator<WorkbookLine>): Promise<WorkbookLine | null> {
  const next = await source.next();
  return next.done ? null : next.value;
}

function isSheetName(line: WorkbookLine): line is { sheet: string } {
  return 'sheet' in line;
}

function isBlank(cells: WorkbookCell[] | null): boolean {
  return cells?.every((cell) => cell === null) ?? true;
}

function sheetLine({ row, cells: own }: Row, decimalComma: boolean, width: number): Line {
  if (own === null) return { line: row, text: '', cells: 'too-long' };
  const cells = cellTexts(own, decimalComma);
  const text = cells.join('\t');
  while (cells.length < width) cells.push('');
  return { line: row, text, cells };
}

/** Numbers of a sheet have no decimal sign of their own: they are written with that of its texts. */
function cellTexts(cells: WorkbookCell[], decimalComma: boolean): string[] {
  return cells.map((cell) => {
    if (cell === null) return '';
    if (typeof cell === 'number') return decimalComma ? String(cell).replace('.', ',') : String(cell);
    return typeof cell === 'object' ? cell.dateText : String(cell).trim();
  });
}

function textCells({ cells }: Row): string[] {
  return (cells ?? []).filter((cell) => typeof cell === 'string');
}
