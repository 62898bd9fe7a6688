import type { SheetColumn } from '@/lib/contract/fleet-sheet/sheet-column';
import { COLUMNS_OF_A_UNIT, SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { readColumnName } from '../column-name';
import type { WorkbookCell, WorkbookSheet } from '../xlsx/workbook';
import { cleanText } from './read-cell';
import type { SheetRows } from './sheet-rows';

type Table = SheetRows['table'];

/** Columns each sheet may have, and those by which it is known. The first of them says what a row is about. */
const KNOWN: Record<Table, { columns: readonly SheetColumn[]; by: readonly string[] }> = {
  units: { columns: COLUMNS_OF_A_UNIT, by: ['tag'] },
  fluids: { columns: SHEET_TABLES.fluids.columns, by: ['fluid', 'properties.table[].specificHeat'] },
  polynomials: { columns: SHEET_TABLES.polynomials.columns, by: ['property', 'coefficients.0'] },
  supplies: { columns: SHEET_TABLES.supplies.columns, by: ['supplies[].name', 'supplies[].dated[].from'] },
  sites: { columns: SHEET_TABLES.sites.columns, by: ['name', 'timeZone'] },
};

/** Headings are looked for in so many rows: titles may stand above them. */
const ROWS_SEARCHED = 20;
const LEAST_HEADINGS = 2;

/** A heading as it stands: the column it names (null for none known), its unit of measure in brackets. */
export type Heading = { text: string; index: number; column: SheetColumn | null; unit: string | null };
export type FoundTable = { table: Table; headingRow: number; headings: Heading[] };

/** The row of a sheet that holds headings, and what they say; null where none is found. */
export function findTable({ rows }: WorkbookSheet): FoundTable | null {
  let best: { found: FoundTable; score: number } | null = null;
  for (const [headingRow, row] of rows.slice(0, ROWS_SEARCHED).entries()) {
    for (const table of Object.keys(KNOWN) as Table[]) {
      const headings = headingsOf(row, table);
      const paths = new Set(headings.flatMap(({ column }) => column?.path ?? []));
      const isIt = KNOWN[table].by.every((path) => paths.has(path)) && paths.size >= LEAST_HEADINGS;
      if (isIt && paths.size > (best?.score ?? 0))
        best = { found: { table, headingRow, headings }, score: paths.size };
    }
  }
  return best?.found ?? null;
}

/** Path of the column that says what a row is about. */
export function keyOf(table: Table): string {
  return KNOWN[table].by[0]!;
}

/** Headings a sheet may have, for suggestions. */
export function knownHeadings(table: Table): string[] {
  return KNOWN[table].columns.map(({ heading }) => heading);
}

function headingsOf(row: WorkbookCell[], table: Table): Heading[] {
  const byName = namesOf(table);
  return row.flatMap((cell, index) => {
    const text = typeof cell === 'string' ? cleanText(cell) : '';
    if (text === '') return [];
    const whole = byName.get(plainHeading(text));
    if (whole !== undefined) return [{ text, index, column: whole, unit: null }];
    const { name, unit } = readColumnName(text);
    return [{ text, index, column: byName.get(plainHeading(name)) ?? null, unit }];
  });
}

const names = new Map<Table, Map<string, SheetColumn>>();

/** Columns by heading, and by the path in a fleet file. */
function namesOf(table: Table): Map<string, SheetColumn> {
  const known = names.get(table);
  if (known !== undefined) return known;
  const made = new Map(
    KNOWN[table].columns.flatMap((column) => [
      [plainHeading(column.path), column] as const,
      [plainHeading(column.heading), column] as const,
    ]),
  );
  names.set(table, made);
  return made;
}

function plainHeading(text: string): string {
  return text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}
