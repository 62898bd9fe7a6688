import { gatherWorkbook, workbookLines } from './open-workbook';
import { WORKBOOK_LIMITS, type WorkbookLimits, type WorkbookSheet } from './workbook';
import { refuseOldWorkbook } from './workbook-kind';

/**
 * Reads a whole .xlsx workbook of moderate size (a template filled in by hand): every sheet in the workbook's order,
 * row i of `rows` being row i + 1 of the sheet, blank rows and cells included. Rows are as long as the widest of their sheet.
 *
 * Cells are texts, numbers, true or false; `{ dateText: '2026-11-25 08:30:00' }` for a date, the local time that the
 * sheet shows and which names no zone; null for a blank cell, also for a formula whose result is an error.
 * It happens in a process of its own, so that no file can take this one with it.
 *
 * @param limits those that differ from `WORKBOOK_LIMITS`
 * @throws AppError 'not-readable' (damaged, protected by a password, no workbook) or 'too-large', with the remedy
 */
export async function readWorkbook(
  bytes: Uint8Array,
  limits: Partial<WorkbookLimits> = {},
): Promise<WorkbookSheet[]> {
  refuseOldWorkbook(bytes);
  const held = { ...WORKBOOK_LIMITS, ...limits };
  const checked = await gatherWorkbook(once(bytes), held);
  const sheets: WorkbookSheet[] = [];
  for await (const line of workbookLines(checked, held)) {
    if ('sheet' in line) sheets.push({ name: line.sheet, rows: [] });
    else sheets.at(-1)!.rows.push(Array.isArray(line) ? line : []);
  }
  return sheets;
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}
