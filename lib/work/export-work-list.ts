import writeXlsxFile, { type SheetData } from 'write-excel-file/node';
import type { WorkFormat } from '@/lib/contract/planned';
import { calendarOfWork } from '@/lib/report/work-list/calendar-of-work';
import { workDocument } from '@/lib/report/work-list/work-document';
import type { WorkRecords } from '@/lib/report/work-list/work-records';
import { type WorkTable, workCsv, workTable } from '@/lib/report/work-list/work-table';
import type { Context } from './context';
import { readWorkList } from './read-work-list';

/** A file to be saved. */
export type WorkFile = { content: string | Uint8Array<ArrayBuffer>; type: string };

/** The work list as a file for calendars, spreadsheets or programs. */
export async function exportWorkList(
  context: Context,
  format: Exclude<WorkFormat, 'json'>,
): Promise<WorkFile> {
  return FILES[format](await readWorkList(context));
}

const FILES: Record<Exclude<WorkFormat, 'json'>, (records: WorkRecords) => Promise<WorkFile>> = {
  ics: async (records) => ({ content: calendarOfWork(records), type: 'text/calendar; charset=utf-8' }),
  csv: async (records) => ({ content: workCsv(workDocument(records)), type: 'text/csv; charset=utf-8' }),
  xlsx: async (records) => ({
    content: await spreadsheet(workTable(workDocument(records))),
    type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  }),
};

/** Texts are written as texts: a spreadsheet runs none of them as a formula. */
async function spreadsheet({ columns, rows }: WorkTable): Promise<Uint8Array<ArrayBuffer>> {
  const sheet: SheetData = [
    columns.map((name) => ({ value: name, type: String, fontWeight: 'bold' as const })),
    ...rows.map((row) =>
      row.map((value) =>
        value === null ? null : typeof value === 'number' ? { value, type: Number } : { value, type: String },
      ),
    ),
  ];
  const buffer = await writeXlsxFile(sheet, { sheet: 'Work list', stickyRowsCount: 1 }).toBuffer();
  return new Uint8Array(buffer);
}
