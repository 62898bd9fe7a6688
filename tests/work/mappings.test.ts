import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as previewRoute from '@/app/api/v1/imports/preview/route';
import * as importsRoute from '@/app/api/v1/imports/route';
import * as mappingRoute from '@/app/api/v1/mappings/[name]/route';
import * as mappingsRoute from '@/app/api/v1/mappings/route';
import { type ImportPreview, importPreviewSchema } from '@/lib/contract/import-preview';
import type { Mapping } from '@/lib/contract/mapping';
import { savedMappingSchema } from '@/lib/contract/saved-mapping';
import { mappingOfGuesses } from '@/lib/work/guess-mapping';
import { registerFleet } from '@/lib/work/register-fleet';
import { answerOf, apiDatabase, post, request } from '../support/api';
import { runCleanby } from '../support/run-cleanby';
import type { TemporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

let database: TemporaryDatabase;
beforeAll(async () => {
  database = await apiDatabase();
  await registerFleet(database.context, plainFleet(['E-101', 'E-102']));
});
afterAll(() => database.remove());

const MAPPING: Mapping = {
  timeZone: 'Europe/Lisbon',
  sensors: { TI1: { tag: 'E-101', sensor: 'hotIn', unit: 'Cel' }, TI2: null },
};

const at = (name: string) => ({ params: Promise.resolve({ name: encodeURIComponent(name) }) });
const send = (method: string, name: string, body?: unknown, query = '') =>
  request(`mappings/${encodeURIComponent(name)}${query}`, {
    method,
    body: body === undefined ? null : JSON.stringify(body),
  });
const put = (name: string, body: unknown) => answerOf(mappingRoute.PUT(send('PUT', name, body), at(name)));
const remove = (name: string, revision: number | string) =>
  answerOf(mappingRoute.DELETE(send('DELETE', name, undefined, `?revision=${revision}`), at(name)));
const read = (name: string) => answerOf(mappingRoute.GET(send('GET', name), at(name)));
const changes = () =>
  database.context.store.entities.changeRecord.findMany({
    where: { subject: 'mapping' },
    orderBy: { id: 'asc' },
  });

describe('saved mappings over HTTP', () => {
  it('are added, read, listed, changed and deleted, and the record keeps each state', async () => {
    const added = await put('Unit 1 hourly', { mapping: MAPPING, revision: null });
    expect(savedMappingSchema.parse(added.document)).toMatchObject({
      name: 'Unit 1 hourly',
      revision: 0,
      changedBy: 'test',
      mapping: MAPPING,
    });
    const changed = { ...MAPPING, timeZone: 'Etc/UTC' };
    expect(await put('Unit 1 hourly', { mapping: changed, revision: 0 })).toMatchObject({
      status: 200,
      document: { revision: 1, mapping: changed },
    });
    expect((await read('Unit 1 hourly')).document).toMatchObject({ revision: 1 });
    const listed = await answerOf(mappingsRoute.GET(request('mappings')));
    expect(listed.document).toMatchObject({ mappings: [{ name: 'Unit 1 hourly', revision: 1 }] });
    expect(await remove('Unit 1 hourly', 1)).toMatchObject({ status: 200 });
    expect(await read('Unit 1 hourly')).toMatchObject({ status: 404 });
    const record = await changes();
    expect(record.map(({ action }) => action)).toEqual(['added', 'changed', 'withdrawn']);
    expect(JSON.parse(record[2]!.before!)).toEqual(changed);
    expect(record[2]!.after).toBeNull();
  });

  it('refuse an edit of an older state and keep what stands', async () => {
    await put('Two at once', { mapping: MAPPING, revision: null });
    const edits = await Promise.all(
      ['Etc/UTC', 'Europe/Oslo'].map((timeZone) =>
        put('Two at once', { mapping: { ...MAPPING, timeZone }, revision: 0 }),
      ),
    );
    expect(edits.map(({ status }) => status).sort()).toEqual([200, 409]);
    const refused = edits.find(({ status }) => status === 409)!;
    expect(refused.document).toMatchObject({ errors: [{ field: 'revision' }] });
    expect(refused.document.detail).toContain('changed in the meantime, by test');
    expect((await read('Two at once')).document).toMatchObject({ revision: 1 });
    expect(await put('Two at once', { mapping: MAPPING, revision: null })).toMatchObject({ status: 409 });
    expect(await remove('Two at once', 0)).toMatchObject({ status: 409 });
  });

  it('let only one of two add the same name', async () => {
    const both = await Promise.all([1, 2].map(() => put('Raced for', { mapping: MAPPING, revision: null })));
    expect(both.map(({ status }) => status).sort()).toEqual([200, 409]);
  });

  it.each([
    ['a name with a slash', 'a/b', { mapping: MAPPING, revision: null }, 'name'],
    [
      'a sensor that is none',
      'x',
      { mapping: { sensors: { a: { tag: 'E', sensor: 'x', unit: 'Cel' } } }, revision: null },
      'mapping.sensors.a',
    ],
    ['no revision', 'x', { mapping: MAPPING }, 'revision'],
  ])('refuse %s, naming the field', async (_, name, body, field) => {
    const { status, document } = await put(name, body);
    expect(status).toBe(422);
    expect(JSON.stringify(document.errors)).toContain(field);
  });

  it('are named by an import, which keeps the name with its batch', async () => {
    await put('By name', { mapping: MAPPING, revision: null });
    const file = 'time,TI1,TI2\n2026-03-01 12:00,51,7\n';
    const taken = await answerOf(importsRoute.POST(post('imports?name=a.csv&mappingName=By%20name', file)));
    expect(taken.document).toMatchObject({ added: 1, units: ['E-101'] });
    const batch = await database.context.store.entities.importBatch.findUniqueOrThrow({
      where: { id: Number(taken.document.batch) },
    });
    expect(batch.mappingName).toBe('By name');
    const unknown = await answerOf(importsRoute.POST(post('imports?mappingName=Nowhere', file)));
    expect(unknown).toMatchObject({ status: 404 });
    expect(JSON.stringify(unknown.document)).toContain('By name');
  });
});

/** Two hours of two units by the plant's names, with three rows above the readings. */
const PLANT = [
  'time,U1_E101_TI_HOT_IN,U1_E101_TI_HOT_OUT,TI-2,E102_FI_COLD,LI-7,Remark',
  ',Hot inlet,Hot outlet,E-102 cold water inlet temperature,,Tank level,',
  ',degC,degC,degC,t/h,%,',
  ...Array.from({ length: 30 }, (_, hour) => {
    const time = new Date(Date.parse('2026-02-01T00:00:00Z') + hour * 3_600_000).toISOString();
    const wave = Math.sin(hour / 3);
    return `${time},${(50 + wave).toFixed(1)},${(41 + wave).toFixed(1)},${(30 + wave).toFixed(1)},${(35 + wave).toFixed(2)},55,ok`;
  }),
].join('\n');

async function look(file: BodyInit, query = ''): Promise<ImportPreview> {
  const { document } = await answerOf(
    previewRoute.POST(post(`imports/preview?name=plant.csv${query}`, file)),
  );
  return importPreviewSchema.parse(document);
}

describe('a file looked at', () => {
  it('comes with a guess for each column that its header leaves open, and with the mappings that fit it', async () => {
    const { mapping } = await look(PLANT);
    const guesses = Object.fromEntries(mapping!.columns.map(({ name, guess }) => [name, guess]));
    expect(guesses.U1_E101_TI_HOT_IN).toMatchObject({ tag: 'E-101', sensor: 'hotIn', unit: 'degC' });
    expect(guesses.U1_E101_TI_HOT_IN!.confidence).toBeGreaterThan(0.9);
    expect(guesses.U1_E101_TI_HOT_IN!.reasons[0]).toBe('the name holds E-101');
    expect(guesses.U1_E101_TI_HOT_OUT).toMatchObject({ tag: 'E-101', sensor: 'hotOut' });
    expect(guesses.E102_FI_COLD).toMatchObject({ tag: 'E-102', sensor: 'coldFlow', unit: 't/h' });
    expect(guesses['TI-2']).toMatchObject({ tag: 'E-102', sensor: 'coldIn' });
    expect(guesses['LI-7']).toBeNull();
    expect(guesses.Remark).toBeNull();
    const column = mapping!.columns.find(({ name }) => name === 'U1_E101_TI_HOT_IN')!;
    expect(column).toMatchObject({ first: ['50.0', '50.3', '50.6'], numbers: 30, low: 49, high: 51 });
    expect(mapping!.designs).toHaveLength(2);
  });

  it('offers the saved mapping whose names it holds, the best one first', async () => {
    const { mapping } = await look(PLANT);
    await put('All of it', { mapping: mappingOfGuesses(mapping!, 0.9), revision: null });
    await put('One of it', { mapping: { sensors: { 'LI-7': null, gone: null } }, revision: null });
    const again = await look(PLANT);
    expect(again.mapping!.saved.slice(0, 2)).toEqual([
      { name: 'All of it', revision: 0, known: mapping!.columns.length, missing: 0 },
      { name: 'One of it', revision: 0, known: 1, missing: 1 },
    ]);
    const read = await look(PLANT, '&mappingName=All%20of%20it');
    expect(read.faults).toEqual([]);
    expect(read.units.map(({ tag }) => tag)).toContain('E-101');
    expect(read.mapping!.columns).toHaveLength(mapping!.columns.length);
  });

  it('needs no mapping where its header says it all', async () => {
    expect((await look('tag,time,hot_in[Cel]\nE-101,2026-03-01T00:00:00Z,50\n')).mapping).toBeNull();
    expect((await look('time,E-101.hot_in[Cel]\n2026-03-01T00:00:00Z,50\n')).mapping).toBeNull();
    expect((await look('time,sensor,value\n2026-03-01T00:00:00Z,E-101.hot_in[Cel],50\n')).mapping).toBeNull();
  });

  it('gives the names of a long file with guesses, and the column of times where none is named so', async () => {
    const rows = Array.from({ length: 20 }, (_, i) => {
      const time = `2026-03-01T${String(i).padStart(2, '0')}:00:00Z`;
      return `${time},E101 TI hot inlet,${50 + (i % 3)},degC\n${time},Tank 3 level,60,%`;
    });
    const long = await look(`time,sensor,value,unit\n${rows.join('\n')}\n`);
    expect(long.mapping!.columns.map(({ name }) => name)).toEqual(['E101 TI hot inlet', 'Tank 3 level']);
    expect(long.mapping!.columns[0]!.guess).toMatchObject({ tag: 'E-101', sensor: 'hotIn' });
    const unnamed = await look(
      'Stamp of the row,E101_TI_HOT_IN\n2026-03-01T00:00:00Z,50\n2026-03-01T01:00:00Z,51\n',
    );
    expect(unnamed.mapping!.timeColumn).toBe('Stamp of the row');
  });
});

describe('the command line', () => {
  const cleanby = (...args: string[]) => runCleanby(args, database.url, database.folder);

  it('prints the guesses, stores no reading, and writes the sure ones where that is asked for', async () => {
    writeFileSync(join(database.folder, 'plant.csv'), PLANT);
    const before = await database.context.store.entities.importBatch.count();
    const guessed = await cleanby(
      'import',
      'plant.csv',
      '--guess',
      '--mapping-out',
      'm.json',
      '--save-mapping',
      'Guessed',
    );
    expect(guessed).toMatchObject({ code: 0 });
    expect(guessed.stdout).toMatch(/U1_E101_TI_HOT_IN +E-101 +hot inlet temperature/);
    expect(guessed.stderr).toContain('these are guesses');
    expect(guessed.stderr).toMatch(/m\.json: \d+ columns taken, (none left out|\d+ left out \(null\), as)/);
    expect(await database.context.store.entities.importBatch.count()).toBe(before);
    const byFile = await cleanby('import', 'plant.csv', '--mapping', './m.json', '--json');
    const byName = await cleanby('import', 'plant.csv', '--mapping', 'Guessed', '--json');
    expect(JSON.parse(byFile.stdout)).toMatchObject({ read: 30, setAside: 0 });
    expect(JSON.parse(byName.stdout)).toMatchObject({ added: 0, replaced: 0 });
    const again = await cleanby('import', 'plant.csv', '--guess', '--save-mapping', 'Guessed');
    expect(again).toMatchObject({ code: 1 });
    expect(again.stderr).toContain('is taken');
  }, 180_000);

  it('lists, shows, saves and deletes mappings', async () => {
    writeFileSync(join(database.folder, 'own.json'), JSON.stringify(MAPPING));
    await cleanby('mapping', 'save', 'Own', 'own.json');
    expect((await cleanby('mapping', 'save', 'Own', 'own.json')).stderr).toContain('saved "Own", revision 1');
    expect((await cleanby('mapping', 'list')).stdout).toMatch(/Own +1 +1 +1 /);
    expect((await cleanby('mapping', 'show', 'Own')).stdout).toMatch(
      /TI1 +E-101 +hot inlet temperature +Cel/,
    );
    const stale = await cleanby('mapping', 'delete', 'Own', '--revision', '0');
    expect(stale).toMatchObject({ code: 1 });
    expect((await cleanby('mapping', 'delete', 'Own')).code).toBe(0);
    const record = await changes();
    expect(record.at(-1)).toMatchObject({ action: 'withdrawn', actorKind: 'local', subjectName: 'Own' });
  }, 180_000);
});
