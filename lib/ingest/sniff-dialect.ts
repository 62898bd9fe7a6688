import { type Cells, type Delimiter, readCells } from './read-cells';
import { unreadable } from './text-encoding';

export type Dialect = {
  terminator: '\n' | '\r';
  delimiter: Delimiter;
  decimalComma: boolean;
  header: string[];
  /** The line that the header begins on, and the one it ends on. */
  headerLine: number;
  headerLines: number;
};

const DELIMITERS: readonly Delimiter[] = ['\t', ';', ','];
/** Rows whose number of fields is compared with the header's. */
const COMPARED_ROWS = 50;
/** Lines one header may span by line breaks inside quotes. */
const MAX_HEADER_LINES = 20;

/**
 * Finds how a file is written from its beginning.
 *
 * - Lines end with a line feed (a carriage return before it is dropped); in a file without any, with a carriage return.
 * - A first line `sep=;` names the delimiter. Else it is the one of tab, semicolon and comma with which most of the
 *   first rows have as many fields as the header; equal ones are decided by the number of fields.
 * - Decimal comma: see `usesDecimalComma`.
 */
export function sniffDialect(head: string, headIsAll: boolean): Dialect {
  const terminator = head.includes('\n') || !head.includes('\r') ? '\n' : '\r';
  const lines = head.split(terminator).map((line) => line.replace(/\r$/, ''));
  // The last line of the head may be cut.
  if (!headIsAll) lines.pop();
  let first = lines.findIndex((line) => line.trim() !== '');
  const named = /^"?sep=([,;\t])"?$/i.exec(lines[first]?.trimStart() ?? '')?.[1] as Delimiter | undefined;
  if (named !== undefined) first += 1;
  const { text, next } = joinHeader(lines, first, headIsAll);
  const rows = lines.slice(next).filter((line) => line.trim() !== '');
  const delimiter = named ?? bestDelimiter(text, rows.slice(0, COMPARED_ROWS));
  const header = readCells([text], delimiter)[0]!;
  if (typeof header === 'string') {
    throw unreadable('Line 1: the header has text behind a closing quote; write a quote inside quotes twice');
  }
  return {
    terminator,
    delimiter,
    decimalComma: usesDecimalComma(rows, delimiter),
    header,
    headerLine: first + 1,
    headerLines: next,
  };
}

/** The header as one text, joined over line breaks inside quotes. */
function joinHeader(lines: string[], first: number, headIsAll: boolean): { text: string; next: number } {
  if (first < 0 || first >= lines.length) {
    if (headIsAll) throw unreadable('The file is empty; it needs a header line and rows below it');
    throw unreadable('Line 1: the header is longer than 256 KiB; is this a CSV file?');
  }
  let text = lines[first]!;
  let next = first + 1;
  while (hasOpenQuote(text)) {
    if (next >= lines.length || next - first >= MAX_HEADER_LINES) {
      throw unreadable('Line 1: a quote in the header is never closed; close it or remove it');
    }
    text += `\n${lines[next++]}`;
  }
  return { text, next };
}

function hasOpenQuote(text: string): boolean {
  return (text.split('"').length - 1) % 2 === 1;
}

function bestDelimiter(header: string, rows: string[]): Delimiter {
  let best: Delimiter = ',';
  let bestScore = -1;
  for (const delimiter of DELIMITERS) {
    const columns = countCells(readCells([header], delimiter)[0]!);
    if (columns < 2) continue;
    const fitting = readCells(rows, delimiter).filter((cells) => countCells(cells) === columns).length;
    // The share of fitting rows decides; among equals the number of columns.
    const score = (rows.length === 0 ? 1 : fitting / rows.length) + 1 - 1 / columns / COMPARED_ROWS;
    if (score > bestScore) [best, bestScore] = [delimiter, score];
  }
  return best;
}

function countCells(cells: Cells): number {
  return typeof cells === 'string' ? 0 : cells.length;
}

const WITH_COMMA = /^[+-]?\d*,\d+$/;
const WITH_POINT = /^[+-]?\d*\.\d+$/;
/** `1,234` in a file that keeps fields apart by something else may be one thousand. */
const PERHAPS_THOUSANDS = /^[+-]?[1-9]\d{0,2},\d{3}$/;

/**
 * Whether numbers are written 12,5: where more fields have a comma as decimal sign than a point. Between commas or tabs
 * at least one must be sure, that is, unlike `1,234`, which spreadsheets write for a thousand; between semicolons a
 * comma is a decimal sign, and without any evidence numbers are expected with a comma. Never guessed row by row:
 * a number that does not suit is set aside.
 */
function usesDecimalComma(rows: string[], delimiter: Delimiter): boolean {
  let commas = 0;
  let sureCommas = 0;
  let points = 0;
  for (const cells of readCells(rows, delimiter)) {
    if (typeof cells === 'string') continue;
    for (const text of cells) {
      if (WITH_POINT.test(text)) points++;
      if (!WITH_COMMA.test(text)) continue;
      commas++;
      if (!PERHAPS_THOUSANDS.test(text)) sureCommas++;
    }
  }
  if (delimiter === ';') return commas > points || (commas === 0 && points === 0);
  return commas > points && sureCommas > 0;
}
