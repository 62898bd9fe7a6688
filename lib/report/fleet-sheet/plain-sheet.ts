import type { WrittenCell } from './write-cell';

/** How a cell looks; `text` is a blank or filled cell that a spreadsheet must not turn into a date or number. */
export type CellLook =
  | 'title'
  | 'lead'
  | 'group'
  | 'heading'
  | 'required'
  | 'unit'
  | 'example'
  | 'plain'
  | 'text'
  | 'long';

export type PlainCell = { value: WrittenCell; look: CellLook; span?: number };

/** Words a spreadsheet offers in the cells of a column, and what it shows beside them. */
export type CellChoices = {
  column: number;
  /** First and last row, counted from 1. */
  rows: [number, number];
  words: readonly string[];
  title: string;
  prompt: string;
  /** Whether other entries are refused by the spreadsheet itself. */
  isStrict: boolean;
};

/** A sheet without any file format: what stands where, and how it looks. */
export type PlainSheet = {
  title: string;
  rows: (PlainCell | null)[][];
  widths: number[];
  fixedRows: number;
  fixedColumns: number;
  choices: CellChoices[];
};
