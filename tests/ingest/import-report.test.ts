import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { importReportSchema } from '@/lib/contract/import-report';
import { importReadings } from '@/lib/work/import-readings';
import { registerFleet } from '@/lib/work/register-fleet';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';
import { streamOf } from './read-file';
import { type SheetCell, workbookOf } from './sheet-file';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
});
afterAll(() => database.remove());

const TABLE: SheetCell[][] = [
  ['Tag', 'E-1.hot_in', 'E-1.hot_out', 'E-2.hot_in'],
  ['Units', '°C', '°C', 'degF'],
  ['2026-01-31T10:00:00Z', 80.5, 'Bad', 122],
  ['2026-01-31T11:00:00Z', 'BAD', 'No Data', 'open'],
];

describe('the report of an import', () => {
  it('counts status words, and a workbook stores what the same table as text does', async () => {
    const { context } = database;
    const book = await workbookOf({ Export: TABLE });
    const report = await importReadings(context, { name: 'week.xlsx', source: streamOf(book) });
    expect(importReportSchema.parse(report)).toMatchObject({
      read: 2,
      added: 2,
      setAside: 1,
      setAsideByReason: { 'value-not-a-number': 1 },
      statusCells: { total: 3, byWord: { bad: 2, 'no data': 1 } },
      units: ['E-1', 'E-2'],
    });
    const text = TABLE.map((row) => row.join(';')).join('\n');
    const again = await importReadings(context, { name: 'week.csv', source: streamOf(text) });
    expect(again).toMatchObject({ added: 0, replaced: 0, unchanged: 2, statusCells: report.statusCells });
  });

  it('says nothing of status words where there are none', async () => {
    const source = streamOf('tag,time,hot_in[Cel]\nE-1,2026-02-01T10:00:00Z,80\n');
    const report = await importReadings(database.context, { name: 'a.csv', source });
    expect(report).not.toHaveProperty('statusCells');
  });
});
