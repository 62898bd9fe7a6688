import { AppError } from '@/lib/contract/app-error';
import { HOW_TO_TITLE } from '@/lib/contract/fleet-sheet/tables';
import { makeSuggest } from '@/lib/contract/nearest-name';
import { readWorkbook } from '../xlsx/read-workbook';
import type { WorkbookSheet } from '../xlsx/workbook';
import { isZip } from '../xlsx/workbook-kind';
import { csvSheet } from './csv-sheet';
import { findTable } from './find-table';
import { readTable } from './read-table';
import type { FleetSheetReading } from './sheet-rows';

/** A workbook filled in by hand is small; a hundred thousand cells are a thousand units with every column filled. */
const LIMITS = { maxBytes: 2 ** 24, maxCells: 1_000_000, timeMs: 60_000 };

/**
 * Reads a fleet sheet: a workbook, or its sheet of units as CSV. Columns may stand in any order and rows above the headings.
 *
 * @throws AppError 'not-readable' or 'too-large' for what is no such file
 */
export async function readFleetSheet(bytes: Uint8Array): Promise<FleetSheetReading> {
  const { sheets, decimalComma } = isZip(bytes)
    ? { sheets: await readWorkbook(bytes, LIMITS), decimalComma: null }
    : csvSheet(bytes);
  const result: FleetSheetReading = { tables: [], faults: [], notes: [] };
  const reading = { ...result, suggest: makeSuggest(), decimalComma };
  for (const sheet of sheets) {
    const found = sheet.name === HOW_TO_TITLE ? null : findTable(sheet);
    if (found !== null) result.tables.push(readTable(sheet, found, reading));
    else if (sheet.name !== HOW_TO_TITLE && sheet.rows.some((row) => row.some((cell) => cell !== null)))
      result.notes.push(`The sheet "${sheet.name}" has no headings that are known here and was left out`);
  }
  if (!result.tables.some(({ table }) => table === 'units')) throw noUnits(sheets);
  return result;
}

function noUnits(sheets: WorkbookSheet[]): AppError {
  const names = sheets.map(({ name }) => `"${name}"`).join(', ');
  const message = `no sheet has a row of headings with "Tag" in it (there are ${names}); begin with the template, and keep its headings`;
  return new AppError('not-readable', 'This is no fleet sheet', [{ field: 'file', message }]);
}
