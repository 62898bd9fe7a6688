import readXlsxFile from 'read-excel-file/node';
import writeXlsxFile from 'write-excel-file/node';

export type RawCell = string | number | boolean | Date | null;
export type RawSheet = { sheet: string; data: RawCell[][] };

/** The sheets of a workbook by another reader than the product's, cells as they are. */
export async function rawSheets(bytes: Uint8Array): Promise<RawSheet[]> {
  return (await readXlsxFile(Buffer.from(bytes))) as unknown as RawSheet[];
}

/** A workbook of plain cells, as a person's spreadsheet program would save it. */
export async function rawWorkbook(sheets: RawSheet[]): Promise<Uint8Array<ArrayBuffer>> {
  const written = sheets.map(({ sheet, data }) => ({
    sheet,
    data: data.map((row) =>
      row.map((value) => {
        if (value === null) return null;
        return value instanceof Date ? { value, type: Date, format: 'yyyy-mm-dd hh:mm' } : { value };
      }),
    ),
  }));
  return new Uint8Array(await writeXlsxFile(written).toBuffer());
}

/** Row of the headings in what is written out, counted from 0. */
export const HEADINGS_AT = 2;

/** Puts a value into the cell of a row (by its first cell) and a heading. */
export function putCell(
  sheets: RawSheet[],
  [sheet, first, heading]: [sheet: string, first: string, heading: string],
  value: RawCell,
): void {
  const { data } = sheets.find((candidate) => candidate.sheet === sheet)!;
  const column = data[HEADINGS_AT]!.findIndex((cell) => String(cell).replace(/ \*$/, '') === heading);
  const row = data.find(([cell]) => cell === first);
  if (column < 0 || row === undefined) throw new RangeError(`no cell ${sheet} ${first} ${heading}`);
  row[column] = value;
}
