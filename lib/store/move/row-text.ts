import type { Column } from './table-shape';

/** A value on its way: whole numbers and instants [ms] as their digits, whatever their size. */
export type Cell = string | number | boolean | Buffer | null;

const ESCAPES: Record<string, string> = { '\\': '\\\\', '\n': '\\n', '\r': '\\r', '\t': '\\t' };

/**
 * A row as a line of PostgreSQL's COPY: two rows have the same line only where they are the same to the last bit (but that
 * SQLite knows no negative zero, which counts as zero).
 */
export function rowText(columns: readonly Column[], row: readonly Cell[]): string {
  let line = '';
  for (let c = 0; c < columns.length; c++) {
    line += c === 0 ? cellText(columns[c]!, row[c]!) : `\t${cellText(columns[c]!, row[c]!)}`;
  }
  return `${line}\n`;
}

function cellText({ kind }: Column, value: Cell): string {
  if (value === null) return '\\N';
  switch (kind) {
    case 'text':
      return (value as string).replace(/[\\\n\r\t]/g, (sign) => ESCAPES[sign]!);
    case 'boolean':
      return value === true ? 't' : 'f';
    case 'instant':
      return instantText(Number(value));
    case 'bytes':
      return `\\\\x${(value as Buffer).toString('hex')}`;
    default:
      // The shortest digits that give the same number again.
      return String(value);
  }
}

function instantText(ms: number): string {
  const text = new Date(ms).toISOString();
  if (!/^\d{4}-/.test(text)) throw new RangeError(`no database has the instant ${text}`);
  return text.replace('T', ' ').replace('Z', '');
}
