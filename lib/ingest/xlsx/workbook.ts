/** A cell of a sheet. A date is a local time that names no zone, `2026-11-25 08:30:00`, as the sheet shows it. */
export type WorkbookCell = string | number | boolean | { dateText: string } | null;

/** Row i of `rows` is row i + 1 of the sheet; blank rows are there, blank cells are null. */
export type WorkbookSheet = { name: string; rows: WorkbookCell[][] };

/** What the reading process says, one JSON document per line: each sheet's name, then its rows. */
export type WorkbookLine =
  | WorkbookCell[]
  | { sheet: string }
  /** A row whose text is longer than 1 MiB. */
  | { tooLong: true }
  | { end: true }
  /** Null where it failed in a way it does not know. */
  | { fault: { code: 'not-readable' | 'too-large'; message: string } | null };

const MEBIBYTE = 1_048_576;

export type WorkbookLimits = {
  /** Size of the file [bytes]. */
  maxBytes: number;
  maxEntries: number;
  /** Size of all its parts unpacked [bytes]. */
  maxUnpacked: number;
  /** Unpacked size of a part over its packed size; sheets of readings have 5 to 30, of rows that repeat 100. */
  maxRatio: number;
  /** Cells of one sheet: rows times columns up to the last that hold anything. */
  maxCells: number;
  /** JavaScript objects of the reading process [MB]; the unpacked parts come on top. */
  heapMB: number;
  /** Time the reading process may be waited for [ms]. */
  timeMs: number;
};

/** A sheet at these limits took the reading process 430 MiB at most, and 12 s beside much else. */
export const WORKBOOK_LIMITS: WorkbookLimits = {
  maxBytes: 32 * MEBIBYTE,
  maxEntries: 2000,
  maxUnpacked: 64 * MEBIBYTE,
  maxRatio: 200,
  maxCells: 2_000_000,
  heapMB: 320,
  timeMs: 120_000,
};
