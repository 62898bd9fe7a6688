import { csvText } from '@/lib/report/format/csv';

/** Results go to stdout, everything said to a person goes to stderr: a pipe gets clean data. */
export function message(text: string): void {
  process.stderr.write(`${text}\n`);
}

export type OutputOptions = { json?: boolean; csv?: boolean };

export type Table = { columns: string[]; rows: (string | number | null)[][] };

/** One result in the form asked for: a JSON document, CSV, or a table to read. */
export function print(
  options: OutputOptions,
  { document, table }: { document: unknown; table: Table },
): void {
  if (options.json) process.stdout.write(`${JSON.stringify(document, null, 2)}\n`);
  else process.stdout.write(options.csv ? csvText([table.columns, ...table.rows]) : aligned(table));
}

function aligned({ columns, rows }: Table): string {
  const text = rows.map((row) => row.map((value) => (value === null ? '–' : shown(value))));
  const widths = columns.map((name, c) => Math.max(name.length, ...text.map((row) => row[c]!.length)));
  const numeric = columns.map((_, c) => rows.length > 0 && rows.every((row) => typeof row[c] !== 'string'));
  const line = (cells: string[]) =>
    cells
      .map((cell, c) => (numeric[c] ? cell.padStart(widths[c]!) : cell.padEnd(widths[c]!)))
      .join('  ')
      .trimEnd();
  return `${[columns, ...text].map(line).join('\n')}\n`;
}

/** A cell of a table to read: what was entered moves no cursor, rings no bell and begins no line. */
function shown(value: string | number): string {
  return String(value).replace(/\p{Cc}+/gu, ' ');
}

/** A figure with four significant digits, or null. */
export function rounded(value: number | null | undefined): number | null {
  return value === null || value === undefined ? null : Number(value.toPrecision(4));
}
