import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as setAside from '@/app/api/v1/imports/[batch]/set-aside/route';
import * as undo from '@/app/api/v1/imports/[batch]/undo/route';
import * as preview from '@/app/api/v1/imports/preview/route';
import * as imports from '@/app/api/v1/imports/route';
import { importPreviewSchema } from '@/lib/contract/import-preview';
import { importReportSchema } from '@/lib/contract/import-report';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, post, readingsCsv, request } from '../support/api';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
});
afterAll(() => database.remove());

const take = async (body: BodyInit, query = '') =>
  answerOf(imports.POST(post(`imports?name=day.csv${query}`, body)));
const at = (batch: string) => ({ params: Promise.resolve({ batch }) });
const stored = async () => {
  const [row] = await database.context.store.entities.$queryRaw<
    { n: bigint }[]
  >`SELECT count(*) AS n FROM reading`;
  return Number(row!.n);
};

const HEAD = 'tag,time,hot_in[Cel],hot_out[Cel],cold_in[Cel],cold_out[Cel],hot_flow[kg/s],cold_flow[kg/s]\n';

describe('importing readings over HTTP', () => {
  it('checks without storing, then stores, then changes nothing the second time', async () => {
    const file = readingsCsv('E-1', 48);
    const checked = await take(file, '&check=1');
    expect(importReportSchema.parse(checked.document)).toMatchObject({ batch: null, read: 48, added: 48 });
    expect(await stored()).toBe(0);
    const taken = await take(file);
    expect(importReportSchema.parse(taken.document)).toMatchObject({
      file: 'day.csv',
      added: 48,
      unchanged: 0,
      units: ['E-1'],
    });
    expect(taken.document.isAnalysed).toBe(true);
    expect((await take(file)).document).toMatchObject({ added: 0, replaced: 0, unchanged: 48, units: [] });
  });

  it('takes a body that arrives in pieces, gzipped too, as fast as it is asked for', async () => {
    const bytes = gzipSync(readingsCsv('E-2', 24));
    let pulled = 0;
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        const piece = bytes.subarray(pulled, pulled + 7);
        pulled += 7;
        if (piece.length === 0) controller.close();
        else controller.enqueue(new Uint8Array(piece));
      },
    });
    expect((await take(body)).document).toMatchObject({ read: 24, added: 24 });
  });

  it('keeps rows aside with line, text, reason and remedy, as JSON and as a spreadsheet that runs nothing', async () => {
    const rows = [
      'E-1,2026-03-01T00:00:00Z,50,40,30,40,10,10',
      'E-1,2026-03-01 01:00,50,40,30,40,10,10',
      '=cmd,2026-03-01T00:00:00Z,1,1,1,1,1,1',
    ];
    const { document } = await take(`${HEAD}${rows.join('\n')}\n`);
    expect(document).toMatchObject({
      read: 3,
      added: 1,
      setAside: 2,
      setAsideByReason: { 'time-without-zone': 1, 'unknown-tag': 1 },
    });
    const batch = String(document.batch);
    const listed = await answerOf(setAside.GET(request(`imports/${batch}/set-aside`), at(batch)));
    expect(listed.document.rows).toMatchObject([
      { line: 3, text: rows[1], reason: 'time-without-zone', field: 'time' },
      { line: 4, text: rows[2], reason: 'unknown-tag', field: 'tag' },
    ]);
    const file = await setAside.GET(request(`imports/${batch}/set-aside?format=csv`), at(batch));
    expect(file.headers.get('content-disposition')).toBe(`attachment; filename="kept-aside-${batch}.csv"`);
    expect(await file.text()).toContain(`"'=cmd,2026-03-01T00:00:00Z,1,1,1,1,1,1"`);
  });

  it('reads times without offset in the zone the address names, and refuses a zone that is none', async () => {
    const file = `${HEAD}E-1,2026-07-01 12:00,50,40,30,40,10,10\n`;
    expect((await take(file, '&timeZone=Europe/Lisbon')).document).toMatchObject({
      added: 1,
      firstTime: '2026-07-01T11:00:00.000Z',
    });
    const wrong = await take(file, '&timeZone=Mars/Base');
    expect(wrong).toMatchObject({ status: 422, document: { errors: [{ field: 'timeZone' }] } });
  });

  it('takes a plant-wide file with the mapping of the address', async () => {
    const sensors = { 'TI-1': { tag: 'E-2', sensor: 'hotIn', unit: '[degF]' }, 'TI-2': null };
    const mapping = encodeURIComponent(JSON.stringify({ sensors }));
    const { document } = await take('time,TI-1,TI-2\n2026-08-01T00:00:00Z,122,7\n', `&mapping=${mapping}`);
    expect(document).toMatchObject({ added: 1, units: ['E-2'] });
    expect(await take('time,TI-1\n', '&mapping=%7B')).toMatchObject({
      status: 422,
      document: { errors: [{ field: 'mapping' }] },
    });
  });

  it('names line, field and remedy of a header that cannot be read, and stores no batch', async () => {
    const { status, document } = await take('tag,time,hot_in\nE-1,2026-03-01T00:00:00Z,50\n');
    expect(status).toBe(422);
    expect(document.errors).toMatchObject([
      { field: 'hot_in', line: 1, message: expect.stringContaining('hot_in[Cel]') },
    ]);
  });

  it('leaves nothing behind when the sender gives up in the middle', async () => {
    const before = await stored();
    let sent = 0;
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        if (sent++ === 0)
          controller.enqueue(new TextEncoder().encode(readingsCsv('E-2', 5000, '2027-01-01T00:00:00Z')));
        else controller.error(new Error('connection lost'));
      },
    });
    expect(await take(body)).toMatchObject({ status: 422, document: { errors: [{ field: 'body' }] } });
    expect(await stored()).toBe(before);
  });

  it('refuses a body that announces more than is taken', async () => {
    const big = request('imports', {
      method: 'POST',
      body: 'x',
      headers: { 'content-length': String(2 ** 31) },
    });
    expect((await answerOf(imports.POST(big))).status).toBe(413);
  });
});

describe('looking at a file first', () => {
  const look = (body: BodyInit, query = '') =>
    answerOf(preview.POST(post(`imports/preview?name=p.csv${query}`, body)));

  it('says how it is written, what each column holds, what would be kept aside, and stores nothing', async () => {
    const before = await stored();
    const file =
      'tag;time;hot_in[degF];hot_flow[gpm]\nE-1;2026-04-01T00:00:00Z;122,5;100\nE-1;2026-04-01T01:00:00Z;Open;100\nE-9;2026-04-01T01:00:00Z;122;100\n';
    const seen = importPreviewSchema.parse((await look(file)).document);
    expect(seen.format).toMatchObject({
      kind: 'canonical',
      delimiter: ';',
      decimalComma: true,
      encoding: 'utf-8',
    });
    expect(seen.format.columns[2]).toMatchObject({ use: 'reading', sensor: 'hotIn', unit: 'degF' });
    expect(seen.looked).toEqual({ rows: 3, isWhole: true, setAside: 2 });
    expect(seen.setAside.map(({ line, reason }) => [line, reason])).toEqual([
      [3, 'value-not-a-number'],
      [4, 'unknown-tag'],
    ]);
    // 122.5 °F is 50.2778 °C by the definition of the scale.
    expect(seen.rows[0]!.readings[0]!.values.hotIn).toBeCloseTo(50.27778, 5);
    expect(seen.units).toEqual([
      {
        tag: 'E-1',
        timeZone: 'Europe/Lisbon',
        readings: 1,
        firstTime: Date.parse('2026-04-01'),
        lastTime: Date.parse('2026-04-01'),
      },
    ]);
    expect(seen.plot).toMatchObject({ tag: 'E-1', values: { hotFlow: [expect.closeTo(0.00630902, 7)] } });
    expect(await stored()).toBe(before);
  });

  it('says nothing about the last line of a file of which only the beginning was sent, gzipped or not', async () => {
    const file = readingsCsv('E-1', 200);
    const cut = importPreviewSchema.parse((await look(file.slice(0, 9000), '&cut=1')).document);
    expect(cut.looked).toMatchObject({ isWhole: false, setAside: 0 });
    expect(cut.looked.rows).toBeGreaterThan(100);
    const packed = new Uint8Array(gzipSync(readingsCsv('E-1', 20_000)));
    const cutPacked = importPreviewSchema.parse(
      (await look(new Blob([packed.subarray(0, packed.length >> 1)]), '&cut=1')).document,
    );
    expect(cutPacked.looked.setAside).toBe(0);
    expect(cutPacked.faults).toEqual([]);
  });

  it('gives the faults of the header beside the columns, so that they can be mapped', async () => {
    const seen = importPreviewSchema.parse((await look('time,TI-1\n2026-04-01T00:00:00Z,5\n')).document);
    expect(seen.format).toMatchObject({
      kind: 'plant-wide',
      columns: [{ use: 'time' }, { name: 'TI-1', use: 'unknown' }],
    });
    expect(seen.faults).toMatchObject([{ field: 'TI-1', line: 1 }]);
    expect(seen.rows[0]).toMatchObject({ line: 2, text: '2026-04-01T00:00:00Z,5', readings: [] });
  });

  it('refuses a damaged workbook and says what to do', async () => {
    const { status, document } = await look(new Blob([new Uint8Array([0x50, 0x4b, 3, 4, 0, 0])]));
    expect(status).toBe(422);
    expect(document.detail).toContain('save it again and send it whole');
  });
});

describe('taking an import back', () => {
  it('removes what it added, puts back what it replaced and brings the results up to date', async () => {
    const first = readingsCsv('E-1', 24, '2026-09-01T00:00:00Z');
    await take(first);
    const before = await stored();
    const changed =
      first.replaceAll(',50.00,', ',51.00,') + readingsCsv('E-1', 1, '2026-09-03T00:00:00Z').split('\n')[1];
    const { document } = await take(`${changed}\n`);
    expect(document).toMatchObject({ added: 1, replaced: 3 });
    const batch = String(document.batch);
    const undone = await answerOf(undo.POST(request(`imports/${batch}/undo`, { method: 'POST' }), at(batch)));
    expect(undone).toMatchObject({
      status: 200,
      document: { removed: 1, restored: 3, units: ['E-1'], isAnalysed: true },
    });
    expect(await stored()).toBe(before);
  });

  it('says that there is no such import', async () => {
    for (const batch of ['999', 'x', '-1', '1e3']) {
      expect(
        (await answerOf(undo.POST(request(`imports/${batch}/undo`, { method: 'POST' }), at(batch)))).status,
      ).toBe(404);
      expect((await answerOf(setAside.GET(request(`imports/${batch}/set-aside`), at(batch)))).status).toBe(
        404,
      );
    }
  });

  it('lists the latest imports, newest first', async () => {
    const { imports: listed } = (await answerOf(imports.GET(request('imports')))).document as {
      imports: { id: number; source: string }[];
    };
    expect(listed.length).toBeGreaterThan(3);
    expect(listed[0]!.id).toBeGreaterThan(listed[1]!.id);
    expect(listed[0]!.source).toBe('day.csv');
  });
});
