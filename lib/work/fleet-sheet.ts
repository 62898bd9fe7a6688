import type { Blob } from 'node:buffer';
import type { Stream } from 'node:stream';
import writeXlsxFile, { type Cell } from 'write-excel-file/node';
import type { DatedPrice } from '@/lib/contract/fleet-file';
import { choiceLists } from '@/lib/report/fleet-sheet/choice-lists';
import {
  type FleetSheetContent,
  fleetWorkbook,
  type SheetPrice,
} from '@/lib/report/fleet-sheet/fleet-workbook';
import { LOOKS } from '@/lib/report/fleet-sheet/looks';
import type { PlainCell, PlainSheet } from '@/lib/report/fleet-sheet/plain-sheet';
import type { UnitSystem } from '@/lib/report/format/unit-system';
import { listSites, listUnits } from '@/lib/store/entities/units';
import type { Context } from './context';
import { readKnownPrices } from './sheet-prices';

export type FleetSheetAsked = {
  /** Whether the known units stand in it, or it is to be filled. */
  withUnits: boolean;
  /** Units of measure of columns in which nothing stands. */
  system: UnitSystem;
};

/** The fleet template as a workbook: empty, or with the known units to be edited. Known sites stand in it in any case. */
export async function makeFleetSheet(
  context: Context,
  { withUnits, system }: FleetSheetAsked,
): Promise<Uint8Array<ArrayBuffer>> {
  const { entities } = context.store;
  const content: FleetSheetContent = { sites: await listSites(entities), units: [], prices: [] };
  if (withUnits) {
    const units = await listUnits(entities);
    content.units = units.map(({ site, version, unit }) => ({ site: site.name, version, unit }));
    content.prices = (await readKnownPrices(context)).flatMap(priceInForce);
  }
  return workbookOf(fleetWorkbook(content, system));
}

/** A withdrawn price is not written out. */
function priceInForce({
  price,
  carbon,
  ...known
}: Awaited<ReturnType<typeof readKnownPrices>>[number]): SheetPrice[] {
  if (price === null && carbon === null) return [];
  const stated: Omit<DatedPrice, 'from'> = {};
  if (price !== null) stated.price = price as NonNullable<DatedPrice['price']>;
  if (carbon !== null) stated.carbon = carbon as NonNullable<DatedPrice['carbon']>;
  return [{ ...known, ...stated }];
}

/** What the writer of workbooks takes for a file inside one; it does not export the type. */
type FileContent = Stream | Buffer | Blob;

/** The bytes of a workbook. Texts are written as texts: a spreadsheet runs none of them as a formula. */
export async function workbookOf(sheets: PlainSheet[]): Promise<Uint8Array<ArrayBuffer>> {
  const written = sheets.map(({ title, rows, widths, fixedRows, fixedColumns }) => ({
    sheet: title,
    data: rows.map((row) => row.map(cellOf)),
    columns: widths.map((width) => ({ width })),
    stickyRowsCount: fixedRows,
    stickyColumnsCount: fixedColumns,
  }));
  const buffer = await writeXlsxFile(written, { features: [choiceLists<FileContent>(sheets)] }).toBuffer();
  return new Uint8Array(buffer);
}

function cellOf(cell: PlainCell | null): Cell {
  if (cell === null) return null;
  const { value, look, span } = cell;
  const style = { ...LOOKS[look], ...(span === undefined || span < 2 ? {} : { columnSpan: span }) };
  if (typeof value === 'number') {
    const { format: _text, ...numeric } = style;
    return { ...numeric, value, type: Number };
  }
  // A blank cell of a column of texts is one of text too: a tag such as 1-2 typed there must not become a date.
  return { ...style, value: value ?? undefined, type: String };
}
