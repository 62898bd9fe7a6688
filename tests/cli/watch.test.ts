import type { ChildProcess } from 'node:child_process';
import {
  appendFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  renameSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { registerFleet } from '@/lib/work/register-fleet';
import { saveMapping } from '@/lib/work/saved-mappings';
import { FolderWatch } from '@/lib/work/watch-folder';
import { readingsCsv } from '../support/api';
import { runCleanby, startCleanby } from '../support/run-cleanby';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
let folder: string;
let outside: string;
beforeAll(async () => {
  database = await temporaryDatabase();
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
});
afterAll(() => database.remove());
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cleanby-watched-'));
  outside = mkdtempSync(join(tmpdir(), 'cleanby-outside-'));
});
afterEach(() => {
  for (const path of [folder, outside]) rmSync(path, { recursive: true, force: true });
});

const put = (name: string, text: string | Buffer) => writeFileSync(join(folder, name), text);
const entities = () => database.context.store.entities;
const batches = (source: string) => entities().importBatch.findMany({ where: { source } });
const notes = (name: string) =>
  entities().watchedFile.findMany({ where: { folder, name }, orderBy: { id: 'asc' } });
const readings = () => entities().reading.count();

type Watching = { look: FolderWatch['look']; lines: string[]; stop: AbortController };

/** The watch itself, look by look, without a process around it. */
function watching(mappingName: string | null = null): Watching {
  const lines: string[] = [];
  const stop = new AbortController();
  const say = (line: string) => void lines.push(line);
  const watch = new FolderWatch(database.context, {
    folder,
    mappingName,
    timeZone: null,
    say,
    signal: stop.signal,
  });
  return { look: () => watch.look(), lines, stop };
}

describe('a look at a watched folder', () => {
  it('takes each file once it stood still for two looks, and never touches it', async () => {
    put('one.csv', readingsCsv('E-1', 10, '2026-01-01T00:00:00Z'));
    const { look, lines } = watching();
    expect(await look()).toMatchObject({ taken: 0, growing: 1 });
    appendFileSync(join(folder, 'one.csv'), `E-1,2026-01-02T00:00:00Z,50,40,30,40,10,10\n`);
    expect(await look()).toMatchObject({ taken: 0, growing: 1 });
    expect(await look()).toMatchObject({ taken: 1, growing: 0 });
    expect(await look()).toEqual({ taken: 0, refused: 0, failed: 0, growing: 0 });
    expect(lines).toHaveLength(1);
    expect(lines[0]).toContain('one.csv: import');
    expect(lines[0]).toContain('11 rows read, 11 added');
    expect(await batches('one.csv')).toMatchObject([{ added: 11, importedBy: `watched folder ${folder}` }]);
    expect(readdirSync(folder)).toEqual(['one.csv']);
  });

  it('leaves a last line without a line end for the next look, until nothing was written for long', async () => {
    const csv = readingsCsv('E-1', 5, '2026-01-10T00:00:00Z');
    put('cut.csv', csv.slice(0, -3));
    const { look, lines } = watching();
    await look();
    expect(await look()).toMatchObject({ taken: 0, growing: 1 });
    expect(await look()).toMatchObject({ taken: 0, growing: 1 });
    expect(lines).toEqual([expect.stringMatching(/^cut\.csv: its last line has no line end yet/)]);
    put('cut.csv', csv);
    await look();
    expect(await look()).toMatchObject({ taken: 1, growing: 0 });
    const longAgo = new Date(Date.now() - 660_000);
    put('still.csv', readingsCsv('E-1', 5, '2026-01-20T00:00:00Z').trimEnd());
    utimesSync(join(folder, 'still.csv'), longAgo, longAgo);
    await look();
    expect(await look()).toMatchObject({ taken: 1, growing: 0 });
    expect(lines.at(-1)).toMatch(/^still\.csv: import .*; the last line has no line end; see that/);
    put('wide.csv', Buffer.from(`\ufeff${readingsCsv('E-1', 5, '2026-01-25T00:00:00Z')}`, 'utf16le'));
    put('packed.csv.gz', gzipSync(readingsCsv('E-1', 5, '2026-01-26T00:00:00Z').trimEnd()));
    await look();
    expect(await look()).toMatchObject({ taken: 2, growing: 0 });
  });

  it('refuses a file of which every row was set aside, and reads it again once its mapping was mended', async () => {
    const sensor = { tag: 'E-1', sensor: 'hotIn' as const, unit: 'Cel' };
    await saveMapping(database.context, 'Words', {
      mapping: { sensors: { 'TI-9': sensor } },
      revision: null,
    });
    put('words.csv', 'time,TI-9\n2026-05-02T00:00:00Z,much\n2026-05-02T01:00:00Z,more\n');
    const { look, lines } = watching('Words');
    await look();
    expect(await look()).toMatchObject({ taken: 0, refused: 1 });
    expect(lines[0]).toMatch(
      /^words\.csv: refused.*every row was set aside: line 2, TI-9: "much" is not a number/,
    );
    expect(await notes('words.csv')).toMatchObject([
      { refusal: expect.stringContaining('every row was set aside'), batchId: expect.any(Number) },
    ]);
    expect(await look()).toMatchObject({ taken: 0, refused: 0 });
    const mapping = { sensors: { 'TI-9': sensor }, statusWords: ['much'] };
    await saveMapping(database.context, 'Words', { mapping, revision: 0 });
    expect(await look()).toMatchObject({ refused: 1 });
    expect(await batches('words.csv')).toHaveLength(2);
  });

  it('reads a file whole again when rows were added, and counts only those', async () => {
    put('log.csv', readingsCsv('E-1', 5, '2026-02-01T00:00:00Z'));
    const { look } = watching();
    await look();
    await look();
    appendFileSync(join(folder, 'log.csv'), `E-1,2026-02-02T00:00:00Z,50,40,30,40,10,10\n`);
    await look();
    expect(await look()).toMatchObject({ taken: 1 });
    expect((await batches('log.csv')).map(({ read, added, unchanged }) => [read, added, unchanged])).toEqual([
      [5, 5, 0],
      [6, 1, 5],
    ]);
  });

  it('leaves what is not complete, what lies in subfolders and what leads out of the folder', async () => {
    const csv = readingsCsv('E-1', 3, '2026-03-01T00:00:00Z');
    for (const name of ['a.csv.tmp', 'b.part', '.hidden.csv', '~$open.csv', 'c.csv.filepart']) put(name, csv);
    mkdirSync(join(folder, 'sub'));
    writeFileSync(join(folder, 'sub', 'd.csv'), csv);
    writeFileSync(join(outside, 'secret.csv'), csv);
    symlinkSync(join(outside, 'secret.csv'), join(folder, 'out.csv'));
    symlinkSync(join(folder, 'gone.csv'), join(folder, 'dangling.csv'));
    const { look, lines } = watching();
    await look();
    expect(await look()).toEqual({ taken: 0, refused: 0, failed: 0, growing: 0 });
    expect(lines).toEqual(['out.csv: a link that leads out of the folder; not followed']);
    renameSync(join(folder, 'b.part'), join(folder, 'b.csv'));
    await look();
    expect(await look()).toMatchObject({ taken: 1 });
  });

  it('notes a refused file with the reason, tries it again only when it changes, and takes the others', async () => {
    put('bad.csv', 'tag,time,hot_in\nE-1,2026-04-01T00:00:00Z,50\n');
    put('good.csv.gz', gzipSync(readingsCsv('E-2', 4, '2026-04-01T00:00:00Z')));
    const { look, lines } = watching();
    await look();
    expect(await look()).toMatchObject({ taken: 1, refused: 1 });
    expect(await look()).toMatchObject({ taken: 0, refused: 0 });
    expect(lines[0]).toMatch(
      /^bad\.csv: refused, tried again when it changes\. Line 1, "hot_in".*hot_in\[Cel\]/,
    );
    expect(await notes('bad.csv')).toMatchObject([
      { batchId: null, refusal: expect.stringContaining('hot_in') },
    ]);
    put('bad.csv', 'tag,time,hot_in[Cel]\nE-1,2026-04-01T00:00:00Z,50\n');
    await look();
    expect(await look()).toMatchObject({ taken: 1 });
    expect(await notes('bad.csv')).toMatchObject([{ refusal: expect.any(String) }, { refusal: null }]);
  });

  it('tries a refused file again when its mapping was mended, and keeps the name with the batch', async () => {
    const sensors = { 'TI-1': { tag: 'E-1', sensor: 'hotIn' as const, unit: 'Cel' } };
    await saveMapping(database.context, 'Plant', { mapping: { sensors }, revision: null });
    put('plant.csv', 'time,TI-1,TI-2\n2026-05-01T00:00:00Z,50,40\n');
    const { look } = watching('Plant');
    await look();
    expect(await look()).toMatchObject({ refused: 1 });
    expect(await look()).toMatchObject({ refused: 0 });
    await saveMapping(database.context, 'Plant', {
      mapping: { sensors: { ...sensors, 'TI-2': null } },
      revision: 0,
    });
    expect(await look()).toMatchObject({ taken: 1 });
    expect(await batches('plant.csv')).toMatchObject([{ mappingName: 'Plant', added: 1 }]);
  });

  it('takes nothing twice when it was killed between a batch and its note', async () => {
    put('killed.csv', readingsCsv('E-2', 6, '2026-06-01T00:00:00Z'));
    const first = watching();
    await first.look();
    await first.look();
    await entities().watchedFile.deleteMany({ where: { folder } });
    const second = watching();
    await second.look();
    expect(await second.look()).toMatchObject({ taken: 0 });
    expect(second.lines[0]).toMatch(/^killed\.csv: the same content came in before, as import \d+$/);
    expect(await batches('killed.csv')).toHaveLength(1);
    expect(await notes('killed.csv')).toMatchObject([{ refusal: null, batchId: expect.any(Number) }]);
  });

  it('says once that the folder is gone, goes on, and says when it is back', async () => {
    const { look, lines } = watching();
    renameSync(folder, `${folder}-away`);
    try {
      expect(await look()).toMatchObject({ failed: 1 });
      expect(await look()).toMatchObject({ failed: 1 });
      expect(lines).toEqual([expect.stringMatching(/cannot be read \(ENOENT.*trying again$/)]);
    } finally {
      renameSync(`${folder}-away`, folder);
    }
    put('back.csv', readingsCsv('E-2', 2, '2026-07-01T00:00:00Z'));
    await look();
    expect(await look()).toMatchObject({ taken: 1 });
    expect(lines[1]).toContain('can be read again');
  });

  it('leaves no half batch and no note when it is stopped in the middle of a file', async () => {
    put('large.csv', readingsCsv('E-2', 30_000, '2020-01-01T00:00:00Z'));
    const before = await readings();
    const { look, stop } = watching();
    await look();
    const stopped = look();
    setImmediate(() => stop.abort(new DOMException('stopped', 'AbortError')));
    await expect(stopped).rejects.toThrow('stopped');
    expect(await readings()).toBe(before);
    expect(await notes('large.csv')).toEqual([]);
  });
});

/** Waits until a text stands in what a process says; fails with all it said. */
function said(child: ChildProcess, text: string | RegExp): Promise<string> {
  return new Promise((resolve, reject) => {
    let all = '';
    const limit = setTimeout(() => reject(new Error(`"${text}" was not said, but: ${all}`)), 50_000);
    child.stderr?.on('data', (data: Buffer) => {
      all += data;
      if (typeof text === 'string' ? !all.includes(text) : !text.test(all)) return;
      clearTimeout(limit);
      resolve(all);
    });
  });
}

const ended = (child: ChildProcess) =>
  new Promise<{ code: number | null; signal: string | null }>((resolve) =>
    child.on('exit', (code, signal) => resolve({ code, signal })),
  );

describe('cleanby watch as a process', () => {
  it('takes files as they come and ends cleanly when it is asked to', async () => {
    const child = startCleanby(['watch', folder, '--every', '50ms'], database.url);
    const end = ended(child);
    await said(child, 'watching');
    const taken = said(child, 'came.csv: import');
    put('came.csv', readingsCsv('E-1', 7, '2026-08-01T00:00:00Z'));
    await taken;
    child.kill('SIGINT');
    expect(await end).toEqual({ code: 0, signal: null });
    expect(await batches('came.csv')).toMatchObject([{ added: 7 }]);
  }, 120_000);

  it('is killed in the middle, and a second run takes each file once and whole', async () => {
    for (let i = 0; i < 3; i++) put(`part-${i}.csv`, readingsCsv('E-1', 4000, `200${i + 1}-01-01T00:00:00Z`));
    const child = startCleanby(['watch', folder, '--every', '20ms'], database.url);
    const end = ended(child);
    await said(child, 'part-0.csv: import');
    child.kill('SIGKILL');
    await end;
    const again = await runCleanby(['watch', folder, '--once', '--every', '20ms'], database.url);
    expect(again).toMatchObject({ code: 0 });
    for (let i = 0; i < 3; i++) {
      expect(await batches(`part-${i}.csv`)).toMatchObject([{ read: 4000, added: 4000 }]);
      expect(await notes(`part-${i}.csv`)).toHaveLength(1);
    }
  }, 240_000);

  it('with --once tells a scheduler by its exit code that something was refused', async () => {
    put('bad.csv', 'no readings here\n');
    const run = await runCleanby(['watch', folder, '--once', '--every', '20ms'], database.url);
    expect(run.code).toBe(1);
    expect(run.stderr).toContain('0 taken, 1 refused, 0 not readable, 0 still growing');
    const wrong = await runCleanby(['watch', folder, '--mapping', 'Nowhere', '--once'], database.url);
    expect(wrong).toMatchObject({ code: 1 });
    expect(wrong.stderr).toContain('There is no saved mapping "Nowhere"');
  }, 120_000);
});
