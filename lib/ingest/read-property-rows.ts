import type { PropertyColumn, PropertyRows } from '@/lib/contract/property-rows';
import { PROPERTY_COLUMNS } from '@/lib/contract/property-rows';
import { kindInWords } from '@/lib/contract/quantity';
import { columnsByOrder, type HeaderColumn, readPropertyHeader } from './property-header';
import { type Cells, type Delimiter, readCells } from './read-cells';
import { COMMA, POINT, readDecimal } from './read-decimal';
import { sniffDialect } from './sniff-dialect';

/** More rows than any datasheet prints, and than a form should hold. */
const MOST_ROWS = 200;
/** As many faults as a person reads before mending them. */
const MOST_FAULTS = 8;
const REQUIRED: readonly PropertyColumn[] = ['temperature', 'specificHeat'];

type Row = { line: number; cells: Cells };

/**
 * A table of fluid properties as pasted from a spreadsheet or a CSV file: temperature, specific heat and, where they are
 * known, density, viscosity and conductivity. Cells are kept apart by tabs, else by semicolons, else by commas; a header
 * with names and units, or a row of units below it, may stand on top.
 */
export function readPropertyRows(text: string): PropertyRows {
  const lines = text.split(/\r\n|\r|\n/);
  const delimiter = delimiterOf(text);
  const cells = readCells(lines, delimiter);
  const rows = cells
    .map((own, i): Row => ({ line: i + 1, cells: own }))
    .filter(({ cells: own }) => typeof own === 'string' || own.some((cell) => cell !== ''));
  const first = rows[0];
  if (first === undefined)
    return refused('Nothing was pasted: copy the rows of the table with their columns');
  if (typeof first.cells === 'string') return refused(brokenQuote(first.line));
  const sign = usesDecimalComma(lines, first, delimiter) ? COMMA : POINT;
  const { columns, faults, headerRows } = headOf(rows, sign);
  const missing = REQUIRED.filter((property) => !columns.some((column) => column.property === property));
  if (missing.length > 0) {
    return refused(
      `There is no column of ${missing.map(kindInWords).join(' and of ')}; temperature and specific heat are needed`,
    );
  }
  const body = rows.slice(headerRows);
  if (body.length > MOST_ROWS) {
    return refused(
      `There are ${body.length} rows; ${MOST_ROWS} are enough: the table is linear between them`,
    );
  }
  const read = body.map((row) => readRow(row, columns, { sign, faults }));
  return {
    rows: read,
    units: Object.fromEntries(
      columns.flatMap(({ property, unit }) => (property === null || unit === null ? [] : [[property, unit]])),
    ),
    skipped: columns.filter(({ property }) => property === null).map(({ name }) => name),
    faults:
      faults.length > MOST_FAULTS
        ? [...faults.slice(0, MOST_FAULTS), `and ${faults.length - MOST_FAULTS} more`]
        : faults,
  };
}

function refused(fault: string): PropertyRows {
  return { rows: [], units: {}, skipped: [], faults: [fault] };
}

function brokenQuote(line: number): string {
  return `Row ${line}: a quote is not closed, or text follows it; remove it`;
}

/** Of a table of numbers the delimiter is plain: a comma between cells leaves no other to be found. */
function delimiterOf(text: string): Delimiter {
  if (text.includes('\t')) return '\t';
  return text.includes(';') ? ';' : ',';
}

/** By the rule for files of readings, for which the first row stands as header too. */
function usesDecimalComma(lines: string[], first: Row, delimiter: Delimiter): boolean {
  const header = lines[first.line - 1]!;
  return sniffDialect([`sep=${delimiter}`, header, ...lines].join('\n'), true).decimalComma;
}

function headOf(
  rows: Row[],
  sign: number,
): { columns: HeaderColumn[]; faults: string[]; headerRows: number } {
  const [first, second] = rows;
  const cells = cellsOf(first);
  if (holdsNumber(cells, sign)) {
    const widest = Math.max(...rows.map((row) => cellsOf(row).length));
    return { columns: columnsByOrder(widest), faults: [], headerRows: 0 };
  }
  const below = cellsOf(second);
  const isUnits = second !== undefined && !holdsNumber(below, sign);
  return { ...readPropertyHeader(cells, isUnits ? below : []), headerRows: isUnits ? 2 : 1 };
}

function cellsOf(row: Row | undefined): string[] {
  return row === undefined || typeof row.cells === 'string' ? [] : row.cells;
}

function holdsNumber(cells: string[], sign: number): boolean {
  return cells.some((cell) => !Number.isNaN(readDecimal(cell, sign)));
}

type Reading = { sign: number; faults: string[] };

function readRow(
  { line, cells }: Row,
  columns: HeaderColumn[],
  { sign, faults }: Reading,
): PropertyRows['rows'][number] {
  const row = Object.fromEntries(PROPERTY_COLUMNS.map((name) => [name, ''])) as PropertyRows['rows'][number];
  if (typeof cells === 'string') {
    faults.push(brokenQuote(line));
    return row;
  }
  if (cells.slice(columns.length).some((cell) => cell !== '')) {
    faults.push(`Row ${line}: has more cells than the header has columns`);
  }
  columns.forEach(({ property }, i) => {
    if (property === null) return;
    const written = cells[i] ?? '';
    const place = `Row ${line}, ${kindInWords(property)}`;
    if (written === '') {
      if (REQUIRED.includes(property)) faults.push(`${place}: is empty`);
      return;
    }
    const value = readDecimal(written, sign);
    if (Number.isNaN(value)) faults.push(`${place}: “${written}” is no plain number`);
    else row[property] = String(value);
  });
  return row;
}
