import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { FleetSheetCheck } from '@/lib/contract/fleet-sheet/answer';
import { listUnits } from '@/lib/store/entities/units';
import { checkFleetSheet } from '@/lib/work/check-fleet-sheet';
import { makeFleetSheet } from '@/lib/work/fleet-sheet';
import { registerFleet } from '@/lib/work/register-fleet';
import { registerFleetSheet } from '@/lib/work/take-fleet-sheet';
import { HEADINGS_AT, putCell, type RawSheet, rawSheets, rawWorkbook } from '../../support/edited-sheet';
import { type TemporaryDatabase, temporaryDatabase } from '../../support/temporary-database';
import { plainFleet, plainUnit } from '../../support/units';

let database: TemporaryDatabase;
let sheets: RawSheet[];
beforeAll(async () => {
  database = await temporaryDatabase();
  const fleet = plainFleet(['E-101', 'E-102', 'E-103'], {
    cleaning: { cost: 900, isolation: 'valves 1 to 4' },
  });
  await registerFleet(database.context, fleet);
});
beforeEach(async () => {
  sheets = await rawSheets(await makeFleetSheet(database.context, { withUnits: true, system: 'si' }));
});
afterAll(() => database.remove());

const check = async (edited = sheets): Promise<FleetSheetCheck> =>
  (await checkFleetSheet(database.context, await rawWorkbook(edited))).check;
const said = ({ faults }: FleetSheetCheck) =>
  faults.map(({ sheet, cell, tag, heading, message }) => `${sheet}!${cell} ${tag} ${heading}: ${message}`);
const headingsOf = (sheet: RawSheet) => sheet.data[HEADINGS_AT]!;
const sheetNamed = (name: string) => sheets.find(({ sheet }) => sheet === name)!;

describe('a workbook with faults', () => {
  it('names each cell, all at once, and registers nothing', async () => {
    putCell(sheets, ['Units', 'E-101', 'Area'], '20 acres');
    putCell(sheets, ['Units', 'E-101', 'Hot fluid'], 'watre');
    putCell(sheets, ['Units', 'E-102', 'Hot outlet temperature'], 60);
    putCell(sheets, ['Units', 'E-102', 'Shell passes'], 'two');
    putCell(sheets, ['Units', 'E-103', 'Cleaning cost'], '1,234');
    putCell(sheets, ['Details', 'E-103', 'Valid from'], '04.05.2026');
    const found = await check();
    expect(said(found)).toEqual([
      'Units!M5 E-101 Area: "20 acres" does not measure this; use for example m², ft²'.replace(
        '"20 acres"',
        '"acres"',
      ),
      expect.stringMatching(
        /^Units!P5 E-101 Hot fluid: "watre" is not known here; did you mean "water"\? use one of/,
      ),
      'Units!G6 E-102 Shell passes: "two" is no number; write a number, such as 12.5, or empty the cell',
      expect.stringMatching(
        /^Units!\w+7 E-103 Cleaning cost: "1,234" may be 1234 or 1\.234; write it as a number/,
      ),
      expect.stringMatching(
        /^Details!B7 E-103 Valid from: "04\.05\.2026" is no time; write it as 2026-05-31 08:00/,
      ),
    ]);
    await expect(registerFleetSheet(database.context, await rawWorkbook(sheets))).rejects.toMatchObject({
      code: 'invalid-input',
      message: 'Nothing was registered: 5 cells are not valid',
    });
    expect((await listUnits(database.context.store.entities)).every(({ version }) => version === 1)).toBe(
      true,
    );
  });

  it('tells what the physics objects to at the cell, in the words of the sheet', async () => {
    putCell(sheets, ['Units', 'E-102', 'Hot outlet temperature'], 60);
    expect(said(await check())[0]).toMatch(
      /^Units!\w+6 E-102 Hot outlet temperature: must be below the hot inlet: the hot stream is cooled$/,
    );
  });

  it('tells every required cell of a new row, and a tag that is missing or stands twice', async () => {
    const { data } = sheetNamed('Units');
    const wide = (row: RawSheet['data'][number]) => [
      ...row,
      ...headingsOf(sheetNamed('Units'))
        .slice(row.length)
        .map(() => null),
    ];
    data.splice(7, 3, wide(['E-200']), wide([null, null, null, 'no tag']), wide(['E-101']));
    const found = said(await check());
    expect(found.filter((text) => text.includes('E-200'))).toHaveLength(11);
    expect(found).toContainEqual(
      expect.stringMatching(/^Units!A9 null Tag: is missing; give the unit its tag/),
    );
    expect(found).toContainEqual(
      expect.stringMatching(/^Units!A10 E-101 Tag: E-101 stands already in row 5/),
    );
  });

  it('tells a row of details whose tag stands on no row of units once, at its tag', async () => {
    const { data } = sheetNamed('Details');
    data[4]![0] = 'E-999';
    const found = await check();
    expect(said(found)).toEqual([
      'Details!A5 E-999 Tag: E-999 stands on no row of Units; correct it, or add it there',
    ]);
    expect(found.faultCount).toBe(1);
  });

  it('says what to write where an error of a formula stands for a number', async () => {
    putCell(sheets, ['Units', 'E-101', 'Area'], '#N/A');
    expect(said(await check())).toEqual([
      expect.stringMatching(/Area: "#N\/A" is no number; write a number, such as 12\.5, or empty the cell$/),
    ]);
  });

  it('refuses figures without a unit of measure once for the column, and a unit that does not suit it', async () => {
    const { data } = sheetNamed('Units');
    const area = headingsOf(sheetNamed('Units')).indexOf('Area');
    const flow = headingsOf(sheetNamed('Units')).indexOf('Hot flow *');
    data[3]![area] = null;
    data[3]![flow] = 'bar';
    expect(said(await check())).toEqual([
      expect.stringMatching(
        /^Units!X?[A-Z]+4 null Hot flow: "bar" does not measure this; use for example m³\/h/,
      ),
      expect.stringMatching(/^Units!M5 E-101 Area: has no unit of measure; write it in the row \(unit\)/),
    ]);
  });

  it('says where the properties of a custom fluid are missing or contradict each other', async () => {
    putCell(sheets, ['Units', 'E-101', 'Hot fluid'], 'custom');
    putCell(sheets, ['Units', 'E-101', 'Hot fluid name'], 'whey');
    expect(said(await check())).toEqual([
      expect.stringMatching(/Hot fluid: has no properties: write those of "whey" on the sheet "Fluids"$/),
    ]);
    const fluids = sheetNamed('Fluids').data;
    fluids[4] = ['whey', null, null, 5, 3.9, 1020, null, null, null, null];
    expect(said(await check())[0]).toMatch(
      /^Fluids!D5 null Temperature: is the only one: state at least two/,
    );
    fluids[5] = ['Whey', null, null, 95, '4,0', 990, null, null, null, null];
    const good = await check();
    expect(good.faults).toEqual([]);
    expect(good.units[0]!.changes.map(({ heading }) => heading)).toEqual([
      'Hot fluid',
      'Hot fluid name',
      'Properties of the hot fluid',
    ]);
  });
});

describe('a workbook as people leave it', () => {
  it('is read whatever the order of its columns, with others between them, titles above and blank rows', async () => {
    const { data } = sheetNamed('Units');
    for (const row of data) row.reverse();
    for (const [i, row] of data.entries())
      row.splice(4, 0, i === HEADINGS_AT ? 'Cleaning costs' : i > 3 ? 'x' : null);
    data.unshift(['Fleet of the works', null], [null]);
    data.splice(7, 0, [null], ['(moved to the other plant)']);
    const found = await check();
    expect(found.faults).toEqual([]);
    expect(found.notes).toEqual([
      expect.stringMatching(
        /^Units!E5: the column "Cleaning costs" is not known here and was left out; did you mean "Cleaning cost"\?/,
      ),
    ]);
    expect(found.units.map(({ outcome }) => outcome)).toEqual(['unchanged', 'unchanged', 'unchanged']);
  });

  it('may hold numbers as text, decimal commas, blanks around texts, units of measure in cells, and dates', async () => {
    putCell(sheets, ['Units', 'E-101', 'Area'], ' 21,5 ');
    putCell(sheets, ['Units', 'E-101', 'Arrangement'], ' Counter Current ');
    putCell(sheets, ['Units', 'E-101', 'Hot inlet temperature'], '122,9 degF');
    putCell(sheets, ['Units', 'E-101', 'Limit cleanliness'], '75 %');
    putCell(sheets, ['Units', 'E-101', 'Limit fouling resistance'], '0.0002; 0.4 m²·K/kW');
    putCell(sheets, ['Units', 'E-101', 'In outages only'], 'Yes');
    putCell(sheets, ['Details', 'E-101', 'Valid from'], new Date(Date.UTC(2026, 6, 1, 8)));
    const { check: found, fleets } = await checkFleetSheet(database.context, await rawWorkbook(sheets));
    expect(found.faults).toEqual([]);
    expect(fleets[0]!.units).toEqual([
      {
        ...plainUnit('E-101'),
        area: { value: 21.5, unit: 'm2' },
        design: { ...plainUnit('x').design, hotIn: { value: 122.9, unit: '[degF]' } },
        limits: [
          { kind: 'fouling-resistance', value: { value: 0.0002, unit: 'm2.K/W' } },
          { kind: 'fouling-resistance', value: { value: 0.4, unit: 'm2.K/kW' } },
          { kind: 'cleanliness', below: 0.75 },
        ],
        validFrom: '2026-07-01T08:00:00+01:00',
        cleaning: { cost: 900, inOutageOnly: true, isolation: 'valves 1 to 4' },
      },
    ]);
  });

  it('refuses a local time that occurs twice or never where the site is', async () => {
    putCell(sheets, ['Details', 'E-101', 'Valid from'], '2026-03-29 01:30');
    expect(said(await check())).toEqual([expect.stringMatching(/occurs twice or never in Europe\/Lisbon/)]);
  });

  it('keeps what its columns do not state, and takes away what an emptied cell stated', async () => {
    const units = sheetNamed('Units');
    const cost = headingsOf(units).indexOf('Cleaning cost');
    const few = [
      { sheet: 'Units', data: units.data.slice(2).map((row) => [row[0] ?? null, row[cost] ?? null]) },
    ];
    few[0]!.data[2]![1] = null;
    const { check: found, fleets } = await checkFleetSheet(database.context, await rawWorkbook(few));
    expect(found.faults).toEqual([]);
    expect(fleets[0]!.units).toEqual([plainUnit('E-101', { cleaning: { isolation: 'valves 1 to 4' } })]);
  });

  it('writes texts that look like formulas as texts, and refuses them as tags', async () => {
    putCell(sheets, ['Units', 'E-101', 'Service'], '=HYPERLINK("x")');
    expect((await check()).units[0]!.changes).toEqual([
      { heading: 'Service', before: null, after: '=HYPERLINK("x")' },
    ]);
    const { data } = sheetNamed('Units');
    data[4]![0] = '=1+1';
    expect(said(await check())).toContainEqual(
      expect.stringMatching(/^Units!A5 =1\+1 Tag: a tag starts with a letter or digit/),
    );
  });
});

describe('a unit that somebody changes in the meantime', () => {
  it('is a conflict where its row was edited, and is passed over where it was not', async () => {
    const other = await temporaryDatabase();
    await registerFleet(other.context, plainFleet(['E-1', 'E-2']));
    const downloaded = await rawSheets(
      await makeFleetSheet(other.context, { withUnits: true, system: 'si' }),
    );
    await registerFleet(other.context, plainFleet(['E-1', 'E-2'], { service: 'by somebody else' }));
    putCell(downloaded, ['Units', 'E-1', 'Area'], 22);
    const bytes = await rawWorkbook(downloaded);
    const { check: found } = await checkFleetSheet(other.context, bytes);
    expect(said(found)).toEqual([
      'Units!C5 E-1 Version: somebody has changed E-1 since: this is version 1, now there is version 2; download the fleet anew, and make your changes there',
    ]);
    expect(found.notes).toEqual([
      expect.stringMatching(/^E-2 has been changed since .* its row was not edited/),
    ]);
    await expect(registerFleetSheet(other.context, bytes)).rejects.toMatchObject({ code: 'conflict' });
    const kept = await listUnits(other.context.store.entities);
    expect(kept.map(({ unit, version }) => [unit.service, version])).toEqual([
      ['by somebody else', 2],
      ['by somebody else', 2],
    ]);
    await other.remove();
  });
});

describe('several sites in one workbook', () => {
  it('are registered together or not at all', async () => {
    const other = await temporaryDatabase();
    await registerFleet(other.context, plainFleet(['E-1']));
    const both = await rawSheets(await makeFleetSheet(other.context, { withUnits: true, system: 'si' }));
    const units = both[0]!.data;
    const sites = both.find(({ sheet }) => sheet === 'Site')!.data;
    const row = units.find(([tag]) => tag === 'E-1')!;
    units.splice(
      5,
      1,
      ['N-1', 'New works', null, ...row.slice(3)],
      ['N-2', 'Nowhere', null, ...row.slice(3)],
    );
    sites.splice(4, 1, ['New works', 'Europe/Helsinki', 'EUR']);
    const wrong = await checkFleetSheet(other.context, await rawWorkbook(both));
    expect(said(wrong.check)).toEqual([
      expect.stringMatching(/^Units!B7 N-2 Site: "Nowhere" is not known; write it on the sheet "Site"/),
    ]);
    units.splice(6, 1);
    putCell(both, ['Units', 'E-1', 'Service'], 'moved on');
    expect(await registerFleetSheet(other.context, await rawWorkbook(both))).toMatchObject({
      added: ['N-1'],
      updated: ['E-1'],
    });
    const kept = await listUnits(other.context.store.entities);
    expect(kept.map(({ tag, site }) => [tag, site.name])).toEqual([
      ['E-1', 'Test works'],
      ['N-1', 'New works'],
    ]);
    await other.remove();
  });
});
