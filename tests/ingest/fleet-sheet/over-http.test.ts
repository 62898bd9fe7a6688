import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as fleet from '@/app/api/v1/fleet/route';
import { fleetSheetCheckSchema } from '@/lib/contract/fleet-sheet/answer';
import { answerOf, apiDatabase, post, postJson, request } from '../../support/api';
import { putCell, rawSheets, rawWorkbook } from '../../support/edited-sheet';
import type { TemporaryDatabase } from '../../support/temporary-database';
import { plainFleet } from '../../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await answerOf(fleet.POST(postJson('fleet', plainFleet(['E-1', 'E-2']))));
});
afterAll(() => database.remove());

const download = async (query: string) => {
  const response = await fleet.GET(request(`fleet?format=xlsx${query}`));
  return { response, bytes: new Uint8Array(await response.arrayBuffer()) };
};

describe('the fleet over HTTP', () => {
  it('comes as a workbook to be saved, with the known units or as a template in units of either system', async () => {
    const { response, bytes } = await download('');
    expect(response.headers.get('content-type')).toContain('spreadsheetml');
    expect(response.headers.get('content-disposition')).toBe('attachment; filename="cleanby-fleet.xlsx"');
    expect((await rawSheets(bytes))[0]!.data.filter(([tag]) => /^E-/.test(String(tag)))).toHaveLength(2);
    const template = await rawSheets((await download('&with=template&measures=us')).bytes);
    expect(template[0]!.data[4]![0]).toBe('(example) E-101');
    expect(template[0]!.data[3]).toEqual(expect.arrayContaining(['°F', 'gal/min', 'ft²', 'per MMBtu']));
    expect(await answerOf(fleet.GET(request('fleet')))).toMatchObject({ status: 200, document: {} });
  });

  it('is checked without being stored, then registered, told by its first bytes', async () => {
    const sheets = await rawSheets((await download('')).bytes);
    putCell(sheets, ['Units', 'E-1', 'Area'], 25);
    const edited = await rawWorkbook(sheets);
    const checked = await answerOf(fleet.POST(post('fleet?check=1', edited)));
    expect(fleetSheetCheckSchema.parse(checked.document)).toMatchObject({
      faultCount: 0,
      units: [
        { tag: 'E-1', outcome: 'updated', changes: [{ heading: 'Area', before: '20 m²', after: '25 m²' }] },
        { tag: 'E-2', outcome: 'unchanged' },
      ],
    });
    const taken = await answerOf(fleet.POST(post('fleet', edited)));
    expect(taken).toMatchObject({
      status: 200,
      document: { added: [], updated: ['E-1'], unchanged: ['E-2'] },
    });
    const stale = await answerOf(fleet.POST(post('fleet', await rawWorkbook(withArea(sheets, 26)))));
    expect(stale).toMatchObject({ status: 409, type: 'application/problem+json' });
  });

  it('is refused cell by cell as a problem document', async () => {
    const sheets = await rawSheets((await download('')).bytes);
    putCell(sheets, ['Units', 'E-2', 'Hot fluid'], 'gravel');
    const refused = await answerOf(fleet.POST(post('fleet', await rawWorkbook(sheets))));
    expect(refused.status).toBe(422);
    expect(refused.document.errors).toEqual([
      {
        field: 'Units!P6 (E-2, Hot fluid)',
        message: expect.stringMatching(/^"gravel" is not known here.*use one of water, steam/),
      },
    ]);
  });

  it('is refused as a whole where it is no fleet sheet: cut off, empty, a CSV of something else, a file of zeros', async () => {
    const { bytes } = await download('');
    const files: BodyInit[] = [
      bytes.slice(0, 900),
      bytes.slice(40),
      '',
      'time;value\n2026-01-01;3',
      '"Tag;',
      new Uint8Array(5000),
      await rawWorkbook([{ sheet: 'a', data: [['x']] }]),
    ];
    for (const file of files) {
      const refused = await answerOf(fleet.POST(post('fleet?check=1', file)));
      expect([413, 415, 422]).toContain(refused.status);
      expect(JSON.stringify(refused.document)).not.toMatch(/\\n\s+at |node_modules/);
    }
  });
});

function withArea(sheets: Parameters<typeof putCell>[0], area: number) {
  putCell(sheets, ['Units', 'E-1', 'Area'], area);
  return sheets;
}
