import writeXlsxFile, { type SheetData } from 'write-excel-file/node';

export type SheetCell = string | number | boolean | Date | null;

/** A workbook of sheets, as another program writes it. Dates are those of the sheet's clock, given as if it were UTC. */
export async function workbookOf(sheets: Record<string, SheetCell[][]>): Promise<Buffer> {
  const written = Object.entries(sheets).map(([sheet, rows]) => ({ sheet, data: rows.map(cells) }));
  return writeXlsxFile(written as never).toBuffer();
}

function cells(row: SheetCell[]): SheetData[number] {
  return row.map((value) => {
    if (value === null) return null;
    return value instanceof Date
      ? { value, type: Date, format: 'yyyy-mm-dd hh:mm:ss' }
      : { value, type: value.constructor as StringConstructor };
  });
}
