import { CsvError, parse } from 'csv-parse/sync';
import { SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { sniffDialect } from '../sniff-dialect';
import { makeDecoder, sniffEncoding, unreadable } from '../text-encoding';
import type { WorkbookSheet } from '../xlsx/workbook';

const DELIMITERS = ['\t', ';', ','] as const;
type Delimiter = (typeof DELIMITERS)[number];

/** Lines by which the delimiter is found; titles may stand above the headings. */
const LINES_COMPARED = 20;

/** The sheet of units as CSV, in any usual encoding, with its decimal sign found out. */
export function csvSheet(bytes: Uint8Array): { sheets: WorkbookSheet[]; decimalComma: boolean } {
  const text = makeDecoder(sniffEncoding(bytes))(bytes).replace(/^"?sep=[,;\t]"?\r?\n/i, '');
  const delimiter = delimiterOf(text);
  const rows = recordsOf(text, delimiter).map((cells) => cells.map((cell) => (cell === '' ? null : cell)));
  const { decimalComma } = sniffDialect(`sep=${delimiter}\n${text}`, true);
  return { sheets: [{ name: SHEET_TABLES.units.title, rows }], decimalComma };
}

/** The sign that makes the longest row, as the headings are many. */
function delimiterOf(text: string): Delimiter {
  const lines = text.split(/\r\n?|\n/, LINES_COMPARED);
  const longest = (delimiter: Delimiter) => Math.max(...lines.map((line) => line.split(delimiter).length));
  return [...DELIMITERS].sort((a, b) => longest(b) - longest(a))[0]!;
}

function recordsOf(text: string, delimiter: Delimiter): string[][] {
  const options = { delimiter, relax_column_count: true, relax_quotes: true, trim: true };
  try {
    // Blank lines count as rows, as a spreadsheet counts them.
    return parse(text, options);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    throw unreadable(`Line ${error.lines ?? 1} is no row of CSV: a quote is not closed, or text follows it`);
  }
}
