import type { SheetColumn, SheetTable } from '@/lib/contract/fleet-sheet/sheet-column';
import { UNIT_ROW_MARK } from '@/lib/contract/fleet-sheet/sheet-column';
import { HOW_TO_TITLE, SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { offeredUnits } from '@/lib/contract/fleet-sheet/unit-words';
import type { PlainCell, PlainSheet } from './plain-sheet';

const INTRODUCTION = [
  'Fill in one row per unit on the sheet "Units". Columns marked * are required, and each unit needs its area or its plates, and one limit.',
  'The other sheets may be left empty: "Details" for what is known beyond that, "Fluids" for fluids that are not in the list, "Supplies" for what energy costs.',
  `Units of measure stand once for a column, in the row ${UNIT_ROW_MARK} below the headings: choose there what your datasheets are printed in. A single value may have another unit behind it: 150 °F.`,
  'Shares are written as 0.75 or 75 %. Several limits of one kind stand in one cell with a semicolon between them.',
  'Rows whose first cell begins with a round bracket are not read, nor are columns you add. Columns may be moved, and removed: what a removed column says of a known unit stays as it is. An emptied cell takes the value away.',
  'The column "Version" shows from which datasheet a row was downloaded: leave it as it is. If somebody has changed the unit since, you are told instead of writing over it.',
];

const HEADINGS = [
  'Sheet',
  'Column',
  'Required',
  'Meaning',
  'Units or words',
  'Example',
  'In a fleet file (JSON)',
];
const WIDTHS = [13, 28, 10, 70, 44, 20, 38];

/** Every column of every sheet: what it means, what may stand there, an example. */
export function howToSheet(): PlainSheet {
  const intro = INTRODUCTION.map((text): PlainCell[] => [{ value: text, look: 'lead' }]);
  const rows = Object.values(SHEET_TABLES).flatMap((table) =>
    table.columns.map((column) => rowOf(table, column)),
  );
  return {
    title: HOW_TO_TITLE,
    rows: [
      [{ value: HOW_TO_TITLE, look: 'title' }],
      ...intro,
      [],
      HEADINGS.map((value): PlainCell => ({ value, look: 'heading' })),
      ...rows,
    ],
    widths: WIDTHS,
    fixedRows: 0,
    fixedColumns: 0,
    choices: [],
  };
}

function rowOf({ title }: SheetTable, column: SheetColumn): PlainCell[] {
  const { heading, isRequired, meaning, example, path } = column;
  const texts = [title, heading, isRequired ? 'yes' : '', meaning, allowedIn(column), example ?? '', path];
  return texts.map((value) => ({ value: value === '' ? null : value, look: 'long' }));
}

/** What may stand in the cells of a column, in words. */
function allowedIn({ kind, isList }: SheetColumn): string {
  const several = isList ? '; several with a semicolon between' : '';
  switch (kind.by) {
    case 'choice':
      return kind.words.join(', ');
    case 'yes-no':
      return 'yes, no';
    case 'time':
      return '2026-05-31 08:00 (local time of the site), or with an offset';
    case 'day':
      return '2026-05-31';
    case 'text':
      return 'text';
    case 'number':
      return `${kind.isWhole ? 'a whole number' : 'a number'}${rangeOf(kind)}${several}`;
    default:
      return `${offeredUnits(kind).join(', ')}, or a UCUM code${several}`;
  }
}

function rangeOf({ minimum, maximum }: { minimum: number | null; maximum: number | null }): string {
  if (minimum !== null && maximum !== null) return `, ${minimum} to ${maximum}`;
  if (minimum !== null) return `, at least ${minimum}`;
  return maximum === null ? '' : `, at most ${maximum}`;
}
