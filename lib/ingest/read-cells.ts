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
  const known = texts.map((text) => plainFlaw(text, delimiter) ?? withoutQuotes(text, delimiter));
  const records = readRecords(
    texts.filter((_, i) => known[i] === null),
    delimiter,
  );
  let next = 0;
  return known.map((cells) => cells ?? records[next++]!);
}

/** The cells of a text in which nothing but delimiters keeps them apart; null where the parser must look at it. */
function withoutQuotes(text: string, delimiter: Delimiter): string[] | null {
  if (text.includes('"') || text.includes('\n')) return null;
  return text.split(delimiter).map((cell) => cell.trim());
}

/** A flaw that is seen without the parser, which takes twenty times as long to complain as to read. */
function plainFlaw(text: string, delimiter: Delimiter): Flaw | null {
  if (text.length > MAX_LINE_CHARACTERS) return 'too-long';
  const quote = text.indexOf('"');
  if (quote < 0 || text.indexOf('"', quote + 1) >= 0) return null;
  // A single quote at the beginning of a cell opens it and is never closed.
  let before = quote - 1;
  while (before >= 0 && text[before] === ' ') before--;
  return before < 0 || text[before] === delimiter ? 'open' : null;
}

/** All texts in one go; where one of them has a flaw, those with quotes one by one. */
function readRecords(texts: string[], delimiter: Delimiter): Cells[] {
  if (texts.length === 0) return [];
  const records = parseRecords(texts, delimiter, true);
  if (typeof records !== 'string') return records.map((cells, i) => refuseLoose(cells, texts[i]!, delimiter));
  if (texts.length === 1) return [records];
  const unquoted = texts.filter((text) => !text.includes('"'));
  if (unquoted.length === texts.length) {
    const half = texts.length >> 1;
    return [...readRecords(texts.slice(0, half), delimiter), ...readRecords(texts.slice(half), delimiter)];
  }
  const plain = readRecords(unquoted, delimiter);
  let next = 0;
  return texts.map((text) => (text.includes('"') ? readRecords([text], delimiter)[0]! : plain[next++]!));
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
