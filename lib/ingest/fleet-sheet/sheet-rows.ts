import type { Json } from '@/lib/contract/fleet-sheet/paths';
import type { SheetColumn, TableName } from '@/lib/contract/fleet-sheet/sheet-column';

/** One thing wrong in a workbook: where, what, and what to do. Row and column are null where it is about a whole sheet. */
export type SheetFault = {
  sheet: string;
  row: number | null;
  /** `F12`; null where it is about a whole sheet. */
  cell: string | null;
  heading: string | null;
  /** Tag of the unit the row is about. */
  tag: string | null;
  message: string;
};

/** A column as it was found: where, and in which unit of measure. */
export type FoundColumn = { column: SheetColumn; index: number; unit: string | null };

/** One row: what its cells state, by path of the column. A path that is not there has a blank cell. */
export type SheetRow = {
  sheet: string;
  row: number;
  values: Map<string, Json>;
  /** Columns of the sheet the row stands on, by path. */
  columns: ReadonlyMap<string, FoundColumn>;
  /** Paths whose cell cannot be read: their fault is told already. */
  unread: Set<string>;
};

/** One sheet read: `details` are read as `units`, whatever sheet a column of a unit stands on. */
export type SheetRows = {
  table: Exclude<TableName, 'details'>;
  sheet: string;
  rows: SheetRow[];
};

/** A workbook read: the sheets that were understood, all faults, and what was passed over. */
export type FleetSheetReading = { tables: SheetRows[]; faults: SheetFault[]; notes: string[] };
