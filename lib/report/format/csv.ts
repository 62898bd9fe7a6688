/**
 * Text a spreadsheet would run as a formula when it opens the file (OWASP, CSV injection; ASVS 5.0 1.2.10), the wide forms of the
 * signs that some take for the same included. Blanks before the sign do not hinder all of them.
 */
const FORMULA_START = /^(?:[\t\r\n\0]|[ \u00a0\u200b\ufeff]*[=+\-@＝＋－＠])/;
const NEEDS_QUOTES = /[",\r\n]/;

export type CsvCell = string | number | null;

/**
 * CSV of rows: comma, CRLF, quotes where needed. Texts that begin like a formula get an apostrophe in front; numbers stay numbers.
 */
export function csvText(rows: readonly (readonly CsvCell[])[]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: CsvCell): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  const guarded = FORMULA_START.test(value) ? `'${value}` : value;
  return NEEDS_QUOTES.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
