import { csvText } from '@/lib/report/format/csv';

type Row = { line: number; text: string; reason: string; field: string | null; message: string };

/** Rows kept aside as a table for a spreadsheet: where, why, what would mend it, and the row as written. */
export function setAsideCsv(rows: Row[]): string {
  return csvText([
    ['line', 'reason', 'field', 'what to do', 'row as written'],
    ...rows.map(({ line, reason, field, message, text }) => [line, reason, field ?? '', message, text]),
  ]);
}
