// The sheets of a workbook as rows of cells. Runs in a process of its own (workbook-process.mjs): what is judged here
// bounds what a workbook may cost, and the process's heap limit stands behind that.
import { readSheet } from 'read-excel-file/universal';
import { damaged, tooLarge, WorkbookFault } from './workbook-fault.mjs';
import { packStored, readDirectory, refuseBomb, unpack } from './zip-archive.mjs';

const MEBIBYTE = 1_048_576;

/** Rows and columns of a sheet (ECMA-376 part 1, 18.3.1.73; three letters end at XFD). */
const MAX_ROWS = 1_048_576;
const MAX_COLUMNS = 16_384;
/** Characters of one cell, as spreadsheets limit them. */
const MAX_CELL_CHARACTERS = 32_767;

/**
 * The sheets in the workbook's order, one at a time. Row i of `rows` is row i + 1 of the sheet.
 *
 * @param {Uint8Array} bytes
 * @param limits see `WorkbookLimits` in workbook.ts
 * @returns {AsyncGenerator<{ name: string, rows: (string | number | boolean | { dateText: string } | null)[][] }>}
 * @throws {WorkbookFault} and nothing else
 */
export async function* parseWorkbook(bytes, limits) {
  const { archive, sheets } = open(bytes, limits);
  for (const [i, name] of sheets.entries()) yield { name, rows: await rowsOf(archive, i + 1) };
}

function open(bytes, limits) {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  if (file.length > limits.maxBytes) throw tooLarge(`is larger than ${limits.maxBytes / MEBIBYTE} MiB`);
  const entries = readDirectory(file, limits);
  const names = new Set(entries.map((entry) => entry.name));
  if (!names.has('xl/workbook.xml')) throw noWorkbook(names);
  // Pictures and the like are never read.
  const wanted = entries.filter(({ name }) => name.endsWith('.xml') || name.endsWith('.xml.rels'));
  refuseBomb(wanted, limits);
  const parts = wanted.map((entry) => ({ name: entry.name, content: unpack(file, entry) }));
  for (const part of parts) if (part.name.startsWith('xl/worksheets/')) refuseExtent(part.content, limits);
  const book = parts.find((part) => part.name === 'xl/workbook.xml').content.toString('utf8');
  return { archive: bufferOf(packStored(parts)), sheets: sheetNames(book) };
}

/** The memory behind an archive, without a copy where it is its own. */
function bufferOf({ buffer, byteOffset, length }) {
  const isWhole = byteOffset === 0 && length === buffer.byteLength;
  return isWhole ? buffer : buffer.slice(byteOffset, byteOffset + length);
}

function noWorkbook(names) {
  if (names.has('xl/workbook.bin')) {
    return new WorkbookFault('not-readable', 'This is a binary workbook (.xlsb); save it as .xlsx or CSV');
  }
  const message = names.has('content.xml')
    ? 'This is an OpenDocument file (.ods, .odt); save the sheet as .xlsx or CSV'
    : 'This is a zip archive without a workbook in it; unpack it first and send the file itself';
  return new WorkbookFault('not-readable', message);
}

async function rowsOf(archive, number) {
  let rows;
  try {
    rows = await readSheet(archive, number);
  } catch (error) {
    throw sheetFault(error);
  }
  return rows.map((row) => row.map(plainCell));
}

function sheetFault(error) {
  const place = /at row (\d+), col (\d+)/.exec(String(error?.message ?? ''));
  if (place === null) return damaged();
  const [, row, column] = place;
  return new WorkbookFault(
    'not-readable',
    `The cell in row ${row}, column ${column} of the workbook cannot be read; mend it and save the workbook again`,
  );
}

function plainCell(value) {
  if (value instanceof Date) return { dateText: wallClockText(value.getTime()) };
  if (typeof value === 'string') return value.slice(0, MAX_CELL_CHARACTERS);
  if (typeof value === 'number' && !Number.isFinite(value)) return String(value);
  return value ?? null;
}

/** A whole second is meant where a date is this near to one [ms]: days are written with eight decimals, or cut. */
const NEAR_SECOND = 5;
const MS_PER_SECOND = 1000;
/** The first day dates are counted from; what stands before is a time of day. */
const FIRST_DAY = Date.UTC(1900, 0, 1);

/** The date of a cell as its sheet shows it: a local time that names no zone. */
function wallClockText(ms) {
  const second = Math.round(ms / MS_PER_SECOND) * MS_PER_SECOND;
  const meant = Math.abs(second - ms) <= NEAR_SECOND ? second : Math.round(ms);
  const date = new Date(meant);
  if (Number.isNaN(date.getTime())) return 'a date out of range';
  const text = date
    .toISOString()
    .replace('T', ' ')
    .replace(/(\.000)?Z$/, '');
  return meant < FIRST_DAY ? text.slice(text.indexOf(' ') + 1) : text;
}

const PIECE = MEBIBYTE;
/** Longest element that may be cut by the end of a piece. */
const OVERLAP = 1024;
const PLACE = /<(?:\w+:)?(row|c)\b[^<>]*?\sr\s*=\s*["']([A-Za-z]*)(\d+)["']([^<>]*)>/g;

/** The reader fills a sheet up to its last cell: one cell far out would make it billions. */
function refuseExtent(xml, limits) {
  let lastRow = 0;
  let lastColumn = 0;
  for (let at = 0; at < xml.length; at += PIECE) {
    const text = xml.toString('latin1', at, at + PIECE + OVERLAP);
    for (const [, element, letters, digits, rest] of text.matchAll(PLACE)) {
      const row = Number(digits);
      const column = columnNumber(letters);
      if (row > MAX_ROWS || column > MAX_COLUMNS) throw damaged();
      if (element === 'row' || rest.endsWith('/')) continue;
      if (row > lastRow) lastRow = row;
      if (column > lastColumn) lastColumn = column;
    }
  }
  if (lastRow * lastColumn > limits.maxCells) {
    throw tooLarge(
      `has a sheet of ${lastRow} rows and ${lastColumn} columns, more than ${limits.maxCells} cells`,
    );
  }
}

function columnNumber(letters) {
  let number = 0;
  for (const letter of letters.toUpperCase()) number = number * 26 + letter.charCodeAt(0) - 64;
  return number;
}

const SHEET = /<(?:\w+:)?sheet\b[^<>]*?\sname\s*=\s*(?:"([^"<>]*)"|'([^'<>]*)')/g;
const ENTITIES = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

function sheetNames(book) {
  const names = [...book.matchAll(SHEET)].map(([, double, single]) => unescaped(double ?? single ?? ''));
  if (names.length === 0) throw damaged();
  return names;
}

function unescaped(text) {
  return text.replace(/&(#x[0-9a-f]{1,6}|#\d{1,7}|\w{2,4});/gi, (whole, code) => {
    if (!code.startsWith('#')) return ENTITIES[code] ?? whole;
    const point = Number(code.replace(/^#x/i, '0x').replace('#', ''));
    return point <= 0x10ffff ? String.fromCodePoint(point) : whole;
  });
}
