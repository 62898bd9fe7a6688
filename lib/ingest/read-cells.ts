import { CsvError, parse } from 'csv-parse/sync';
import type { RowAt } from './chunk-builder';
import { MAX_LINE_CHARACTERS } from './line-splitter';

export type Delimiter = ',' | ';' | '\t';

/** Why a line is no record: a quote is not closed on it, text follows a closing quote, or it is too long to read. */
export type Flaw = 'open' | 'broken' | 'too-long';

/** The cells of one line, without quotes and surrounding blanks. */
export type Cells = string[] | Flaw;

export type Line = RowAt & { cells: Cells };

/** No line holds both, so that a line can only run on into the next by an open quote. */
const RECORD_END = '\r\n';

/** Numbers consecutive lines and reads their cells. */
export function readLines(texts: string[], firstNumber: number, delimiter: Delimiter): Line[] {
  const cells = readCells(texts, delimiter);
  return texts.map((text, i) => ({ line: firstNumber + i, text, cells: cells[i]! }));
}

/** The cells of each text; a text is a line, or several joined by line feeds that a quote left open. */
export function readCells(texts: string[], delimiter: Delimiter): Cells[] {
  // Blank lines are left out: beside them the parser would report every line as one of another length, which is slow.
  const records = readRecords(
    texts.filter((text) => text !== '' && text.length <= MAX_LINE_CHARACTERS),
    delimiter,
  );
  let next = 0;
  return texts.map((text) => {
    if (text === '') return [''];
    return text.length > MAX_LINE_CHARACTERS ? 'too-long' : records[next++]!;
  });
}

/** All texts in one go; where one of them has a flaw, halves of them, down to that one. */
function readRecords(texts: string[], delimiter: Delimiter): Cells[] {
  if (texts.length === 0) return [];
  const records = parseRecords(texts, delimiter, true);
  if (typeof records !== 'string') return records.map((cells, i) => refuseLoose(cells, texts[i]!, delimiter));
  if (texts.length === 1) return [records];
  const half = texts.length >> 1;
  return [...readRecords(texts.slice(0, half), delimiter), ...readRecords(texts.slice(half), delimiter)];
}

/** Relaxed reading takes `5" pipe` for text as it should, but `"a"b` too: a cell that then begins with a quote. */
function refuseLoose(cells: string[], text: string, delimiter: Delimiter): Cells {
  if (!cells.some((cell) => cell.startsWith('"'))) return cells;
  const records = parseRecords([text], delimiter, false);
  return typeof records === 'string' ? records : cells;
}

function parseRecords(texts: string[], delimiter: Delimiter, isRelaxed: boolean): string[][] | Flaw {
  try {
    const records = parse(texts.join(RECORD_END) + RECORD_END, {
      delimiter,
      record_delimiter: RECORD_END,
      relax_column_count: true,
      relax_quotes: isRelaxed,
      // Blanks between delimiter and quote.
      trim: true,
    });
    return records.length === texts.length ? records.map((cells) => cells.map(trimmed)) : 'broken';
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return error.code === 'CSV_QUOTE_NOT_CLOSED' ? 'open' : 'broken';
  }
}

/** Blanks inside quotes go too; line breaks stay, as they tell where a quote was left open. */
function trimmed(cell: string): string {
  return cell.includes('\n') ? cell : cell.trim();
}
