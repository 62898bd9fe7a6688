import type { LeafKind } from './schema-leaves';

/** One column of a sheet. `path` is where its value stands in what the row describes. */
export type SheetColumn = {
  path: string;
  heading: string;
  group: string;
  kind: LeafKind;
  isRequired: boolean;
  meaning: string;
  example: string | number | null;
  /** A cell may state several values, a semicolon between them: limits of one kind. */
  isList: boolean;
  /** Unit of measure the column begins with (UCUM); null where it has none. */
  unit: { si: string; us: string } | null;
};

export type TableName = 'units' | 'details' | 'fluids' | 'polynomials' | 'supplies' | 'sites';

/** One sheet that is filled in. */
export type SheetTable = {
  name: TableName;
  /** As the workbook calls the sheet. */
  title: string;
  lead: string;
  columns: readonly SheetColumn[];
  /** Columns at the left that stay in view. */
  fixedColumns: number;
};

/** Marks the row that holds the units of measure, and the row that shows how to fill in. A tag begins with a letter or digit. */
export const UNIT_ROW_MARK = '(unit)';
export const EXAMPLE_ROW_MARK = '(example)';
/** A row whose first cell begins so is not read. */
export const NOTE_MARK = '(';

/** A plain number from 0 to 1, where a unit of measure could stand. */
export const SHARE = 'fraction';
