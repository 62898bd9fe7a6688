import { mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { importLineSchema } from '@/lib/contract/api/import-lines';
import { AppError } from '@/lib/contract/app-error';
import { listBatches } from '@/lib/store/entities/batches';
import { undoImport } from '@/lib/work/import-batches';
import { registerFleet } from '@/lib/work/register-fleet';
import { takeUpload } from '@/lib/work/take-upload';
import { makeToken } from '@/lib/work/tokens';
import { notKept } from '@/lib/work/uploads/spool';
import { newUploadPath, sweepUploads, uploadFolder } from '@/lib/work/uploads/upload-folder';
import { apiDatabase, readingsCsv, request } from '../support/api';
import { type ApiServer, serveApi } from '../support/api-server';
import { bytesOf } from '../support/readings-csv';
import { answerOfRoutes } from '../support/route-files';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

/** The first request loads every route. */
const PATIENCE = { timeout: 30_000 };

let database: TemporaryDatabase;
let server: ApiServer;
let secret: string;
beforeEach(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
  ({ secret } = await makeToken(database.context, { name: 'bridge', scopes: ['import', 'look'], days: 1 }));
  server = await serveApi();
});
afterEach(async () => {
  delete process.env.CLEANBY_LIMITS;
  await server.close();
  await database.remove();
});

const folder = () => uploadFolder(database.url);
const left = () => readdirSync(folder());
const batches = () => listBatches(database.context.store.entities, 20);
const send = (body: BodyInit, query = '', headers: Record<string, string> = {}) =>
  answerOfRoutes(request(`imports?name=a.csv${query}`, { method: 'POST', body, headers }));
const take = async (body: BodyInit, query = '') =>
  (await (await send(body, query)).json()) as Record<string, unknown>;

/** Begins an upload over a real connection, and sends no more of it. */
function beginUpload(beginning: string) {
  const headers = { authorization: `Bearer ${secret}`, 'content-type': 'text/csv' };
  const upload = httpRequest(`${server.address}/api/v1/imports?name=slow.csv`, { method: 'POST', headers });
  const answer = new Promise<number | undefined>((resolve, reject) => {
    upload.on('response', (response) => resolve(response.resume().statusCode));
    upload.on('error', reject);
  });
  upload.write(beginning);
  return { upload, answer };
}

/** Waits until the folder of uploads holds so many bytes of one file. */
async function untilSpooled(bytes: number): Promise<void> {
  await expect
    .poll(() => left().some((name) => statSync(join(folder(), name)).size >= bytes), PATIENCE)
    .toBe(true);
}

describe('uploads', () => {
  it('wait for nobody: one that stalls in the middle holds up neither another nor anything else', async () => {
    mkdirSync(folder(), { recursive: true });
    const file = readingsCsv('E-1', 200);
    const { upload, answer } = beginUpload(file.slice(0, 6000));
    await untilSpooled(6000);
    expect(await take(readingsCsv('E-2', 24))).toMatchObject({ added: 24, isAnalysed: true });
    await registerFleet(database.context, plainFleet(['E-3']));
    expect(await batches()).toHaveLength(1);
    upload.end(file.slice(6000));
    expect(await answer).toBe(200);
    expect((await batches())[0]).toMatchObject({ source: 'slow.csv', added: 200, importedBy: 'bridge' });
    expect(left()).toEqual([]);
  });

  it('lie in a folder and in files that nobody else can read', async () => {
    mkdirSync(folder(), { recursive: true });
    const { upload, answer } = beginUpload('tag,time');
    await untilSpooled(1);
    const [name] = left();
    expect((statSync(join(folder(), name!)).mode & 0o777).toString(8)).toBe('600');
    upload.destroy();
    await expect(answer).rejects.toThrow();
    await expect.poll(left, PATIENCE).toEqual([]);
    const fresh = `${folder()}-fresh`;
    await newUploadPath(fresh);
    expect((statSync(fresh).mode & 0o777).toString(8)).toBe('700');
  });

  it('of a process that was killed are removed, those of one that runs stay', async () => {
    mkdirSync(folder(), { recursive: true });
    const mine = await newUploadPath(folder());
    writeFileSync(mine, 'coming in');
    // A number that no process can have, the parent of this one, and this very number in an earlier run of it.
    const killed = 'upload-4194304000-0a0b0c0d-1',
      other = `upload-${process.ppid}-0a0b0c0d-2`;
    const earlier = `upload-${process.pid}-0a0b0c0d-3`;
    for (const name of [killed, other, earlier, 'notes.txt']) writeFileSync(join(folder(), name), 'x');
    await sweepUploads(folder());
    expect(left().sort()).toEqual([mine.slice(folder().length + 1), other, 'notes.txt'].sort());
  });

  it('leave nothing behind where they are refused, or are no readings', async () => {
    expect((await send('tag,time,hot_in\nE-1,2026-03-01T00:00:00Z,50\n')).status).toBe(422);
    expect((await send('PNG', '', { 'content-type': 'image/png' })).status).toBe(415);
    expect((await send('x', '', { 'content-encoding': 'br' })).status).toBe(415);
    const huge = await send('x', '', { 'content-length': String(2 ** 31) });
    expect(huge.status).toBe(413);
    expect(left()).toEqual([]);
    expect(await batches()).toEqual([]);
  });

  it('say that the disk is full, and nothing of where it is', () => {
    for (const code of ['ENOSPC', 'EDQUOT', 'EROFS', 'EACCES']) {
      const error = Object.assign(new Error(`${code}: write /srv/plant/cleanby.db-uploads`), { code });
      expect(() => notKept(error)).toThrow(AppError);
      expect(() => notKept(error)).toThrow(
        /^The server cannot keep the upload: (?!.*srv).*Nothing was taken in$/,
      );
    }
    expect(() => notKept(new Error('a mistake of ours'))).toThrow('a mistake of ours');
  });

  it('of one caller are not more than a few at a time', async () => {
    process.env.CLEANBY_LIMITS = 'imports=1';
    mkdirSync(folder(), { recursive: true });
    const { upload, answer } = beginUpload('tag,time');
    await untilSpooled(1);
    const headers = { authorization: `Bearer ${secret}` };
    const second = await send(readingsCsv('E-1', 2), '', headers);
    expect([second.status, second.headers.get('retry-after')]).toEqual([429, '5']);
    // Another caller is not held up by it.
    expect((await send(readingsCsv('E-1', 2))).status).toBe(200);
    upload.destroy();
    await expect(answer).rejects.toThrow();
    await expect
      .poll(async () => (await send(readingsCsv('E-1', 2), '', headers)).status, PATIENCE)
      .toBe(200);
  });

  it('come as gzip of the file or of the transfer', async () => {
    const packed = (tag: string) => new Blob([new Uint8Array(gzipSync(readingsCsv(tag, 24)))]);
    expect(
      await (await send(packed('E-1'), '', { 'content-type': 'application/gzip' })).json(),
    ).toMatchObject({ added: 24 });
    const transfer = { 'content-type': 'text/csv', 'content-encoding': 'gzip' };
    expect(await (await send(packed('E-2'), '', transfer)).json()).toMatchObject({ added: 24 });
  });

  it('come as a JSON document per line', async () => {
    const line = (hour: number) =>
      JSON.stringify({
        tag: 'E-1',
        time: new Date(Date.parse('2026-02-01T00:00:00Z') + hour * 3_600_000).toISOString(),
        hotIn: { value: 122, unit: '[degF]' },
        hotFlow: { value: 10, unit: 'kg/s' },
      });
    const body = `${Array.from({ length: 30 }, (_, hour) => line(hour)).join('\n')}\n{"tag": \n`;
    const answer = await (await send(body, '', { 'content-type': 'application/x-ndjson' })).json();
    expect(answer).toMatchObject({ read: 31, added: 30, setAside: 1, setAsideByReason: { 'not-json': 1 } });
  });
});

describe('the same file again', () => {
  it('changes nothing, makes no second import, and is answered with the one that stands', async () => {
    const file = readingsCsv('E-1', 48);
    const first = await take(file);
    expect(first).toMatchObject({ added: 48, repeated: false });
    expect(await take(file)).toMatchObject({
      batch: first.batch,
      read: 48,
      added: 0,
      unchanged: 48,
      repeated: true,
    });
    expect(await batches()).toHaveLength(1);
  });

  it('is taken in again once the first was undone', async () => {
    const file = readingsCsv('E-1', 48);
    const { batch } = await take(file);
    await undoImport(database.context, batch as number);
    expect(await take(file)).toMatchObject({ added: 48, repeated: false });
  });

  it('puts its values back where a later file has replaced them', async () => {
    const file = readingsCsv('E-1', 48);
    await take(file);
    expect(await take(file.replaceAll(',50.00,', ',51.00,'))).toMatchObject({ replaced: 7 });
    expect(await take(file)).toMatchObject({ replaced: 7, unchanged: 41, repeated: false });
  });

  it('brings back what an undo of an earlier import took away beneath it', async () => {
    const half = readingsCsv('E-1', 24);
    const file = readingsCsv('E-1', 48);
    const { batch } = await take(half);
    expect(await take(file)).toMatchObject({ added: 24, unchanged: 24 });
    await undoImport(database.context, batch as number);
    expect(await take(file)).toMatchObject({ added: 24, unchanged: 24, repeated: false });
  });

  it('is read anew where a unit that was not known then is known now', async () => {
    const file = readingsCsv('E-7', 12);
    expect(await take(file)).toMatchObject({ added: 0, setAside: 12 });
    expect(await take(file)).toMatchObject({ repeated: true });
    await registerFleet(database.context, plainFleet(['E-7']));
    expect(await take(file)).toMatchObject({ added: 12, setAside: 0, repeated: false });
  });
});

describe('progress line by line', () => {
  const lines = { accept: 'application/x-ndjson' };
  const read = async (response: Response) =>
    (await response.text())
      .trim()
      .split('\n')
      .map((line) => importLineSchema.parse(JSON.parse(line)));

  it('ends with the report', async () => {
    const response = await send(readingsCsv('E-1', 20_000), '', lines);
    expect(response.headers.get('content-type')).toBe('application/x-ndjson');
    const told = await read(response);
    expect(told.at(-1)).toMatchObject({ report: { read: 20_000, added: 20_000 } });
    const bytes = told.flatMap((line) => ('progress' in line ? [line.progress.bytes] : []));
    expect(bytes).toEqual([...bytes].sort((a, b) => a - b));
  });

  it('ends with the problem, under the number of the request', async () => {
    const response = await send('tag,time,hot_in\nE-1,2026-03-01T00:00:00Z,50\n', '', lines);
    const [last] = await read(response);
    expect(last).toMatchObject({
      problem: {
        status: 422,
        instance: `urn:uuid:${response.headers.get('x-request-id')}`,
        errors: [{ field: 'hot_in' }],
      },
    });
  });

  it('tells of bytes, rows and those kept aside at most four times a second', async () => {
    const file = readingsCsv('E-1', 60_000) + 'E-1,never,1,1,1,1,1,1\n'.repeat(500);
    // A clock of our own: how long reading takes is the machine's affair.
    let clock = 0;
    const passing = vi.spyOn(performance, 'now').mockImplementation(() => {
      clock += 40;
      return clock;
    });
    const instants: number[] = [];
    const told: { bytes: number; ofBytes: number; read: number; setAside: number }[] = [];
    const report = await takeUpload(database.context, {
      name: 'long.csv',
      source: bytesOf(file),
      onProgress: (progress) => {
        instants.push(clock);
        told.push(progress);
      },
    }).finally(() => passing.mockRestore());
    expect(report).toMatchObject({ read: 60_500, setAside: 500 });
    expect(told.length).toBeGreaterThan(0);
    for (const { bytes, ofBytes, read: rows } of told) {
      expect(ofBytes).toBe(file.length);
      expect(bytes).toBeLessThanOrEqual(ofBytes);
      expect(rows).toBeLessThanOrEqual(60_500);
    }
    const gaps = instants.slice(1).map((at, i) => at - instants[i]!);
    for (const gap of gaps) expect(gap).toBeGreaterThanOrEqual(249);
  });

  it('cancels the import where the caller hangs up, and nothing of it stays', async () => {
    const gone = new AbortController();
    const body = readingsCsv('E-1', 400_000);
    // A clock of our own, so that the first line comes after the first piece of hundreds: the whole file takes less than the time
    // between two lines.
    let clock = 0;
    const passing = vi.spyOn(performance, 'now').mockImplementation(() => {
      clock += 300;
      return clock;
    });
    const sent = fetch(`${server.address}/api/v1/imports?name=gone.csv`, {
      method: 'POST',
      headers: { authorization: `Bearer ${secret}`, 'content-type': 'text/csv', ...lines },
      body,
      signal: gone.signal,
    });
    const reader = (await sent).body!.getReader();
    await reader.read();
    gone.abort();
    await expect
      .poll(left, PATIENCE)
      .toEqual([])
      .finally(() => passing.mockRestore());
    expect(await batches()).toEqual([]);
    expect(await database.context.store.series.newestReadings()).toEqual(new Map());
  });
});
