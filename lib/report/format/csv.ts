/** Text a spreadsheet would run as a formula when it opens the file (OWASP, CSV injection). */
const FORMULA_START = /^[=+\-@\t\r]/;
const NEEDS_QUOTES = /[",\r\n]/;

/**
 * CSV of rows: comma, CRLF, quotes where needed. Texts that begin like a formula get an apostrophe in front; numbers stay numbers.
 */
export function csvText(rows: (string | number | null)[][]): string {
  return rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  const guarded = FORMULA_START.test(value) ? `'${value}` : value;
  return NEEDS_QUOTES.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
