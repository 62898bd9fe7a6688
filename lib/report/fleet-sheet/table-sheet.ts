import type { Json } from '@/lib/contract/fleet-sheet/paths';
import type { LeafKind } from '@/lib/contract/fleet-sheet/schema-leaves';
import {
  EXAMPLE_ROW_MARK,
  type SheetColumn,
  type SheetTable,
  UNIT_ROW_MARK,
} from '@/lib/contract/fleet-sheet/sheet-column';
import { offeredUnits, unitInWords } from '@/lib/contract/fleet-sheet/unit-words';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import type { CellChoices, CellLook, PlainCell, PlainSheet } from './plain-sheet';
import { usualUnit, writeCell } from './write-cell';

/** What one row holds, by path of the column. */
export type RowValues = ReadonlyMap<string, Json>;

/** Rows that are ready to be filled in below what is there. */
const ROWS_READY = 300;
/** Title, groups, headings, units of measure. */
const ROWS_ABOVE = 4;

/**
 * A sheet to be filled in: title, groups, headings, the row of units of measure, an example where there are no rows yet, and
 * the rows.
 */
export function tableSheet(table: SheetTable, rows: RowValues[], system: UnitSystem): PlainSheet {
  const { columns } = table;
  const units = columns.map((column) =>
    usualUnit(
      column,
      rows.map((row) => row.get(column.path)),
      system,
    ),
  );
  const hasUnits = units.some((unit) => unit !== null);
  const example = rows.length === 0 ? [exampleRow(columns)] : [];
  const above = [titleRow(table), groupRow(columns), columns.map(headingCell)];
  if (hasUnits) above.push(unitRow(columns, units));
  const filled = rows.map((row) =>
    columns.map((column, i) => cellOf(column, writeCell(column, row.get(column.path), units[i]!))),
  );
  const ready = Array.from({ length: ROWS_READY }, () => columns.map((column) => cellOf(column, null)));
  return {
    title: table.title,
    rows: [...above, ...example, ...filled, ...ready],
    widths: columns.map(widthOf),
    fixedRows: above.length,
    fixedColumns: table.fixedColumns,
    choices: choicesOf(columns, {
      first: above.length + 1,
      last: above.length + rows.length + ROWS_READY + 1,
      hasUnits,
    }),
  };
}

function titleRow({ title, lead }: SheetTable): (PlainCell | null)[] {
  return [
    { value: title, look: 'title' },
    { value: lead, look: 'lead' },
  ];
}

/** Groups over their columns. */
function groupRow(columns: readonly SheetColumn[]): (PlainCell | null)[] {
  return columns.map(({ group }, i) => {
    if (columns[i - 1]?.group === group) return null;
    const span = columns.slice(i).findIndex((column) => column.group !== group);
    return { value: group, look: 'group', span: span < 0 ? columns.length - i : span };
  });
}

function headingCell({ heading, isRequired }: SheetColumn): PlainCell {
  return isRequired ? { value: `${heading} *`, look: 'required' } : { value: heading, look: 'heading' };
}

function unitRow(columns: readonly SheetColumn[], units: (string | null)[]): PlainCell[] {
  return columns.map(({ kind }, i) => {
    const unit = units[i]!;
    if (i === 0) return { value: UNIT_ROW_MARK, look: 'unit' };
    return { value: unit === null ? null : unitInWords(kind, unit), look: 'unit' };
  });
}

function exampleRow(columns: readonly SheetColumn[]): PlainCell[] {
  return columns.map(({ example }, i) => ({
    value: i === 0 ? `${EXAMPLE_ROW_MARK} ${example ?? ''}`.trim() : example,
    look: 'example',
  }));
}

const TEXTS: LeafKind['by'][] = ['text', 'time', 'day'];

function cellOf({ kind, isList }: SheetColumn, value: PlainCell['value']): PlainCell | null {
  const look: CellLook = TEXTS.includes(kind.by) && !isList ? 'text' : 'plain';
  return value === null && look === 'plain' ? null : { value, look };
}

const NARROWEST = 11;
const WIDEST = 26;

function widthOf({ heading, kind, group }: SheetColumn, index: number): number {
  const longestWord = Math.max(...heading.split(' ').map((word) => word.length)) + 3;
  const words = kind.by === 'choice' ? Math.max(...kind.words.map((word) => word.length)) + 3 : 0;
  const first = index === 0 ? 18 : 0;
  const text = kind.by === 'text' && group !== 'Polynomial' ? 20 : 0;
  return Math.min(WIDEST, Math.max(NARROWEST, longestWord, words, first, text));
}

const LONGEST_PROMPT = 255;

function choicesOf(
  columns: readonly SheetColumn[],
  { first, last, hasUnits }: { first: number; last: number; hasUnits: boolean },
): CellChoices[] {
  return columns.flatMap((column, index) => {
    const { kind, heading, meaning } = column;
    const said = { column: index, title: heading.slice(0, 32), prompt: promptOf(column) };
    const words = kind.by === 'choice' ? kind.words : kind.by === 'yes-no' ? ['yes', 'no'] : [];
    const cells: CellChoices = { ...said, rows: [first, last], words, isStrict: false };
    if (!hasUnits || column.unit === null || index === 0)
      return meaning === '' && words.length === 0 ? [] : [cells];
    const prompt = 'Unit of measure of the whole column; another one may stand behind a single value';
    return [
      cells,
      { ...said, rows: [ROWS_ABOVE, ROWS_ABOVE], words: offeredUnits(kind), prompt, isStrict: false },
    ];
  });
}

function promptOf({ meaning, isRequired }: SheetColumn): string {
  return `${isRequired ? 'Required. ' : ''}${meaning}`.slice(0, LONGEST_PROMPT);
}
