import { beforeAll, describe, expect, it } from 'vitest';
import { COLUMNS_OF_A_UNIT, HOW_TO_TITLE, SHEET_TABLES } from '@/lib/contract/fleet-sheet/tables';
import { readDirectory, unpack } from '@/lib/ingest/xlsx/zip-archive.mjs';
import { fleetWorkbook } from '@/lib/report/fleet-sheet/fleet-workbook';
import { workbookOf } from '@/lib/work/fleet-sheet';
import { rawSheets } from '../../support/edited-sheet';
import { plainUnit } from '../../support/units';

const site = { name: '=cmd|calc', timeZone: 'Europe/Lisbon', currency: 'EUR' };
const unit = plainUnit('E-101', { service: '+1+1', cleaning: { method: '@SUM(A1)', isolation: '-2' } });

let parts: Map<string, string>;
let bytes: Uint8Array<ArrayBuffer>;
beforeAll(async () => {
  bytes = await workbookOf(
    fleetWorkbook({ sites: [site], units: [{ site: site.name, version: 3, unit }], prices: [] }, 'si'),
  );
  const file = Buffer.from(bytes);
  const entries = readDirectory(file, { maxEntries: 100 });
  parts = new Map(entries.map((entry) => [entry.name, Buffer.from(unpack(file, entry)).toString('utf8')]));
});

describe('the parts of the workbook', () => {
  it('hold no formula: what looks like one is a shared text', () => {
    for (const [name, xml] of parts)
      if (name.startsWith('xl/worksheets/')) expect(xml, name).not.toMatch(/<f[ >]/);
    const texts = parts.get('xl/sharedStrings.xml')!;
    for (const text of ['=cmd|calc', '+1+1', '@SUM(A1)', '-2']) expect(texts).toContain(`>${text}<`);
  });

  it('freeze the headings, offer words to choose from and say beside each cell what it means', () => {
    const units = parts.get('xl/worksheets/sheet1.xml')!;
    expect(units).toMatch(/<pane [^>]*ySplit="4"[^>]*xSplit="1"|<pane [^>]*xSplit="1"[^>]*ySplit="4"/);
    expect(units).toMatch(
      /<formula1>"counter-current,co-current,shell-and-tube,crossflow,plate"<\/formula1>/,
    );
    expect(units).toMatch(/<formula1>"°C,K,°F"<\/formula1>/);
    const [, count] = /<dataValidations count="(\d+)"/.exec(units)!;
    expect(units.match(/<dataValidation /g)).toHaveLength(Number(count));
    // The order of ECMA-376: a spreadsheet calls a file damaged whose elements stand otherwise.
    const order = ['<sheetViews', '<cols', '<sheetData', '<mergeCells', '<dataValidations'].map((part) =>
      units.indexOf(part),
    );
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order.every((place) => place > 0)).toBe(true);
  });

  it('keep prompts, titles and lists within what a spreadsheet opens', () => {
    for (const [name, xml] of parts) {
      if (!name.startsWith('xl/worksheets/')) continue;
      for (const [, prompt] of xml.matchAll(/ prompt="([^"]*)"/g)) expect(prompt!.length).toBeLessThan(300);
      for (const [, title] of xml.matchAll(/ promptTitle="([^"]*)"/g))
        expect(title!.length).toBeLessThanOrEqual(32);
      for (const [, list] of xml.matchAll(/<formula1>([^<]*)</g))
        expect(list!.length).toBeLessThanOrEqual(257);
    }
  });
});

describe('another reader of the workbook', () => {
  it('finds every column with its unit of measure, the unit in its row, and what each column means', async () => {
    const sheets = await rawSheets(bytes);
    const [units, details] = sheets as [(typeof sheets)[0], (typeof sheets)[0]];
    const headings = [...units.data[2]!, ...details.data[2]!.slice(1)].map((cell) =>
      String(cell).replace(/ \*$/, ''),
    );
    expect(headings).toEqual(COLUMNS_OF_A_UNIT.map(({ heading }) => heading));
    const cell = (heading: string, row: number) => units.data[row]![headings.indexOf(heading)];
    expect([cell('Tag', 3), cell('Area', 3), cell('Hot flow', 3)]).toEqual(['(unit)', 'm²', 'kg/s']);
    expect([cell('Tag', 4), cell('Version', 4), cell('Area', 4), cell('Hot inlet temperature', 4)]).toEqual([
      'E-101',
      3,
      20,
      50,
    ]);
    const howTo = sheets.at(-1)!;
    expect(howTo.sheet).toBe(HOW_TO_TITLE);
    const columns = Object.values(SHEET_TABLES).flatMap((table) =>
      table.columns.map(({ heading }) => `${table.title} ${heading}`),
    );
    const explained = howTo.data.filter(([title]) =>
      Object.values(SHEET_TABLES).some((table) => table.title === title),
    );
    expect(explained.map(([title, heading]) => `${title} ${heading}`)).toEqual(columns);
  });
});
