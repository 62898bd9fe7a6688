import type { Mapping } from '@/lib/contract/mapping';
import { findHeader, HEADER_SEARCHED_ROWS, type Header, type HeadRecord } from './find-header';
import { type Cells, type Delimiter, readCells } from './read-cells';
import { unreadable } from './text-encoding';
import { isTimeText } from './time-text';

export type Dialect = {
  terminator: '\n' | '\r';
  delimiter: Delimiter;
  decimalComma: boolean;
  header: Header;
  /** The rows below the header, as far as they were looked at. */
  rows: string[][];
};

const DELIMITERS: readonly Delimiter[] = ['\t', ';', ','];
/** Rows whose number of fields is compared with the header's. */
const COMPARED_ROWS = 50;
/** Cells of a row that are looked at for a time: it stands at the left. */
const TIMED_CELLS = 50;
/** Lines one header may span by line breaks inside quotes. */
const MAX_HEADER_LINES = 20;

/**
 * Finds how a file is written from its beginning.
 *
 * - Lines end with a line feed (a carriage return before it is dropped); in a file without any, with a carriage return.
 * - A first line `sep=;` names the delimiter. Else it is the one of tab, semicolon and comma that leaves most times in
 *   cells of their own; among equals the one with which most of the first rows have as many fields as the header (as
 *   each other, below a title); equal ones are decided by the number of fields.
 * - The header: see `findHeader`. Decimal comma: see `usesDecimalComma`.
 */
export function sniffDialect(head: string, headIsAll: boolean, mapping: Mapping | null = null): Dialect {
  const terminator = head.includes('\n') || !head.includes('\r') ? '\n' : '\r';
  const lines = head.split(terminator).map((line) => line.replace(/\r$/, ''));
  // The last line of the head may be cut.
  if (!headIsAll) lines.pop();
  let first = lines.findIndex((line) => line.trim() !== '');
  const named = /^"?sep=([,;\t])"?$/i.exec(lines[first]?.trimStart() ?? '')?.[1] as Delimiter | undefined;
  if (named !== undefined) first += 1;
  const { text, next } = firstRecord(lines, first, headIsAll);
  const compared = lines.slice(next).filter((line) => line.trim() !== '');
  const delimiter = named ?? bestDelimiter(text, compared.slice(0, COMPARED_ROWS));
  const header = findHeader(headRecords(lines, first, delimiter), mapping);
  const rows = lines.slice(header.last).filter((line) => line.trim() !== '');
  const cells = readCells(rows, delimiter);
  const decimalComma = usesDecimalComma(cells, delimiter);
  const whole = cells.filter((own) => typeof own !== 'string');
  return { terminator, delimiter, decimalComma, header, rows: whole };
}

function firstRecord(lines: string[], first: number, headIsAll: boolean): { text: string; next: number } {
  if (first < 0 || first >= lines.length) {
    if (headIsAll) throw unreadable('The file is empty; it needs a header line and rows below it');
    throw unreadable('Line 1: the header is longer than 256 KiB; is this a CSV file?');
  }
  const joined = joinRecord(lines, first);
  if (joined === null) {
    throw unreadable('Line 1: a quote in the header is never closed; close it or remove it');
  }
  return joined;
}

/** A record as one text, joined over line breaks inside quotes; null where its quote is not closed. */
function joinRecord(lines: string[], first: number): { text: string; next: number } | null {
  let text = lines[first]!;
  let next = first + 1;
  while (hasOpenQuote(text)) {
    if (next >= lines.length || next - first >= MAX_HEADER_LINES) return null;
    text += `\n${lines[next++]}`;
  }
  return { text, next };
}

function hasOpenQuote(text: string): boolean {
  return (text.split('"').length - 1) % 2 === 1;
}

/** The first rows that are not blank, up to one that is no record. */
function headRecords(lines: string[], first: number, delimiter: Delimiter): HeadRecord[] {
  const records: HeadRecord[] = [];
  for (let at = first; at < lines.length && records.length < HEADER_SEARCHED_ROWS; ) {
    const joined = joinRecord(lines, at);
    const cells = joined === null ? 'open' : readCells([joined.text], delimiter)[0]!;
    if (joined === null || typeof cells === 'string') break;
    if (records.length === 0 || cells.some((cell) => cell !== '')) {
      records.push({ line: at + 1, last: joined.next, cells });
    }
    at = joined.next;
  }
  if (records.length === 0) {
    throw unreadable('Line 1: the header has text behind a closing quote; write a quote inside quotes twice');
  }
  return records;
}

function bestDelimiter(header: string, rows: string[]): Delimiter {
  let best: Delimiter = ',';
  let bestScore = -1;
  for (const delimiter of DELIMITERS) {
    const cells = readCells(rows, delimiter);
    const counts = cells.map(countCells);
    const own = countCells(readCells([header], delimiter)[0]!);
    const columns = own < 2 ? mostFrequent(counts) : own;
    if (columns < 2) continue;
    const fitting = counts.filter((count) => count === columns).length;
    // Times decide, then the share of fitting rows; among equals the number of columns.
    const share = rows.length === 0 ? 1 : fitting / rows.length;
    const score = cells.filter(holdsTime).length * 2 + share + 1 - 1 / columns / COMPARED_ROWS;
    if (score > bestScore) [best, bestScore] = [delimiter, score];
  }
  return best;
}

function holdsTime(cells: Cells): boolean {
  return typeof cells !== 'string' && cells.slice(0, TIMED_CELLS).some(isTimeText);
}

function mostFrequent(counts: number[]): number {
  const times = new Map<number, number>();
  for (const count of counts) times.set(count, (times.get(count) ?? 0) + 1);
  const [most] = [...times].sort(([, a], [, b]) => b - a);
  return most?.[0] ?? 0;
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
export function usesDecimalComma(rows: Cells[], delimiter: Delimiter): boolean {
  let commas = 0;
  let sureCommas = 0;
  let points = 0;
  for (const cells of rows) {
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
