import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { changesQuerySchema } from '@/lib/contract/changes';
import { DAY_MS } from '@/lib/time/calendar-day';
import { actingAs, type Context } from '@/lib/work/context';
import { correctCleaning } from '@/lib/work/correct-cleaning';
import { previewUndo, undoImport } from '@/lib/work/import-batches';
import { importReadings } from '@/lib/work/import-readings';
import { judgePeriod } from '@/lib/work/judge-period';
import { listRegistered } from '@/lib/work/list-registered';
import { exportChanges, readChanges, showChanges } from '@/lib/work/read-changes';
import { showCleanings } from '@/lib/work/read-cleanings';
import { showReplaced } from '@/lib/work/read-replaced';
import { recordCleaning } from '@/lib/work/record-cleaning';
import { registerFleet } from '@/lib/work/register-fleet';
import { saveUnit } from '@/lib/work/save-unit';
import { readingsCsv } from '../support/api';
import { refuseRows } from '../support/refuse-rows';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database';
import { plainFleet } from '../support/units';

const NOW = Date.parse('2026-05-04T08:00:00Z');
const EVERYTHING = { seesPeople: true };

let database: TemporaryDatabase;
let ann: Context;
let feed: Context;

beforeEach(async () => {
  database = await temporaryDatabase();
  database.context.now = () => NOW;
  ann = actingAs(database.context, { kind: 'person', id: 'a', name: 'Ann Perez' });
  feed = actingAs(database.context, { kind: 'token', id: '1', name: 'Historian feed' });
  await registerFleet(database.context, plainFleet(['E-1', 'E-2']));
});
afterEach(() => database.remove());

const changes = async (query: object) =>
  (await showChanges(database.context, changesQuerySchema.parse(query), EVERYTHING)).changes;

async function* bytesOf(text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text);
}

describe('the record', () => {
  it('names a person by the account, and a program by itself and for whom it acts', async () => {
    const at = NOW - DAY_MS;
    await recordCleaning(ann, { tag: 'E-1', at, by: 'somebody else' });
    await recordCleaning(feed, { tag: 'E-2', at, by: 'Bo Lind' });
    await recordCleaning(feed, { tag: 'E-2', at: at - DAY_MS });
    const names = (await changes({ subject: 'cleaning' })).map(({ actor }) => actor);
    expect(names).toEqual([
      { kind: 'token', name: 'Historian feed' },
      { kind: 'token', name: 'Bo Lind (Historian feed)' },
      { kind: 'person', name: 'Ann Perez' },
    ]);
    const day = { from: '2026-05-01T00:00:00Z', to: '2026-05-02T00:00:00Z' };
    await judgePeriod(ann, 'E-1', { ...day, verdict: 'exclude', note: 'meter out', by: 'somebody else' });
    const [verdict] = await changes({ subject: 'override' });
    expect(verdict).toMatchObject({ actor: { name: 'Ann Perez' }, note: 'meter out', name: 'E-1' });
  });

  it('tells a limit in a line of its own, beside the other fields of a datasheet', async () => {
    const { site, unit, version } = (await listRegistered(ann)).units[0]!;
    const limits = unit.limits.map((limit) =>
      limit.kind === 'fouling-resistance' ? { ...limit, value: { value: 1.5e-4, unit: 'm2.K/W' } } : limit,
    );
    await saveUnit(ann, { site, unit: { ...unit, service: 'Feed preheat', limits }, version });
    const told = (await changes({ name: 'E-1', who: 'Ann' })).map(({ subject, text }) => [subject, text]);
    expect(told).toEqual([
      ['limit', expect.stringMatching(/^Fouling-resistance limit of E-1: .* → 1\.5·10⁻⁴ m²·K\/W$/)],
      ['unit', 'Datasheet of E-1: Service – → Feed preheat'],
    ]);
  });

  it('is narrowed by who, what, thing and period, and comes a page at a time', async () => {
    for (let day = 1; day <= 105; day++) await recordCleaning(ann, { tag: 'E-1', at: NOW - day * DAY_MS });
    const first = await readChanges(ann, changesQuerySchema.parse({ name: 'E-1' }), EVERYTHING);
    expect([first.changes.length, first.total]).toEqual([100, 106]);
    const query = changesQuerySchema.parse({ name: 'E-1', before: `${first.next}` });
    const second = await readChanges(ann, query, EVERYTHING);
    expect([second.changes.length, second.next]).toEqual([6, null]);
    const all = [...first.changes, ...second.changes].map(({ id }) => id);
    expect(all).toEqual([...new Set(all)].sort((a, b) => b - a));
    expect(await changes({ name: 'E-1', who: 'Perez', subject: 'unit' })).toEqual([]);
    expect(await changes({ to: '2026-05-03' })).toEqual([]);
    expect((await changes({ from: '2026-05-04', subject: 'unit' })).length).toBe(2);
    const rows = (await exportChanges(ann, { name: 'E-1' }, EVERYTHING)).trim().split('\r\n');
    expect(rows).toHaveLength(107);
  });

  it('keeps what became of accounts from those who do not look after them', async () => {
    const data = { at: new Date(NOW), actorKind: 'person', actorName: 'Ann Perez', action: 'changed' };
    await database.context.store.entities.changeRecord.create({
      data: { ...data, subject: 'account', subjectName: 'bo@plant.example' },
    });
    expect(await changes({ subject: 'account' })).toHaveLength(1);
    for (const query of [{}, { subject: 'account' as const }, { name: 'bo@plant.example' }]) {
      const read = await readChanges(ann, query, { seesPeople: false });
      expect(read.changes.filter(({ subject }) => subject === 'account')).toEqual([]);
      expect(read.people).not.toContain('Ann Perez');
      expect(await exportChanges(ann, query, { seesPeople: false })).not.toContain('bo@plant');
    }
  });

  it('holds nothing of a change that did not come to be', async () => {
    await recordCleaning(ann, { tag: 'E-1', at: NOW - DAY_MS });
    const [{ id } = { id: 0 }] = (await showCleanings(ann, 'E-1')).cleanings;
    const due = await database.context.store.series.due();
    const broken = { id, cost: 1, reason: 'x', at: new Date(NOW - 2 * DAY_MS).toISOString() };
    await recordCleaning(ann, { tag: 'E-1', at: NOW - 2 * DAY_MS });
    const before = await changes({});
    await expect(correctCleaning(ann, 'E-1', broken)).rejects.toMatchObject({ code: 'conflict' });
    expect(await changes({})).toEqual(before);
    expect(due.size).toBe(2);
  });

  it('stands or falls with the change and with what is due: a failing record leaves nothing behind', async () => {
    const { entities, series } = database.context.store;
    await entities.unitDue.deleteMany();
    // The database itself refuses the record, after the change was made in the same transaction.
    await refuseRows(database.context.store, 'change_record');
    await expect(recordCleaning(ann, { tag: 'E-1', at: NOW - DAY_MS })).rejects.toThrow();
    const day = { from: '2026-05-01T00:00:00Z', to: '2026-05-02T00:00:00Z' };
    await expect(judgePeriod(ann, 'E-1', { ...day, verdict: 'exclude', note: 'n' })).rejects.toThrow();
    const file = { name: 'readings.csv', source: bytesOf(readingsCsv('E-1', 5)) };
    await expect(importReadings(ann, file)).rejects.toThrow();
    expect((await showCleanings(ann, 'E-1')).cleanings).toEqual([]);
    expect(await entities.periodVerdict.count()).toBe(0);
    expect(await entities.importBatch.count()).toBe(0);
    expect((await series.due()).size).toBe(0);
  });
});

describe('an import', () => {
  const take = (context: Context, text: string) =>
    importReadings(context, { name: 'readings.csv', source: bytesOf(text) });

  it('is recorded with whoever took it in, and so is its undo, told beforehand', async () => {
    const first = await take(feed, readingsCsv('E-1', 5));
    const second = await take(ann, readingsCsv('E-1', 6).replace(',50.', ',55.').replace(',49.8', ',54.8'));
    const counts = await previewUndo(ann, second.batch!);
    const undone = await undoImport(ann, second.batch!);
    const { removed, restored, kept } = undone;
    expect(counts).toMatchObject({ removed, restored, kept });
    expect([removed, restored > 0]).toEqual([1, true]);
    await expect(previewUndo(ann, second.batch!)).rejects.toMatchObject({
      code: 'conflict',
      message: expect.stringContaining('by Ann Perez'),
    });
    expect((await changes({ subject: 'import' })).map(({ action, actor }) => [action, actor.name])).toEqual([
      ['undone', 'Ann Perez'],
      ['added', 'Ann Perez'],
      ['added', 'Historian feed'],
    ]);
    const batches = await database.context.store.entities.importBatch.findMany({ orderBy: { id: 'asc' } });
    expect(batches.map(({ importedBy, undoneBy }) => [importedBy, undoneBy])).toEqual([
      ['Historian feed', null],
      ['Ann Perez', 'Ann Perez'],
    ]);
    expect(first.batch).not.toBeNull();
  });

  it('lists the values it replaced, as they were and as it left them, whatever came after', async () => {
    const head = 'tag,time,hot_in[Cel],hot_flow[kg/s]\n';
    const at = (hour: number) => `2026-01-01T0${hour}:00:00Z`;
    const { batch: first } = await take(ann, `${head}E-1,${at(1)},50,10\nE-1,${at(2)},51,10\n`);
    const { batch: second } = await take(
      ann,
      `${head}E-1,${at(1)},60,10\nE-1,${at(2)},51,11\nE-1,${at(3)},52,10\n`,
    );
    const values = async () =>
      (await showReplaced(ann, second!)).rows.map(({ time, sensor, unit, before, after }) => [
        Number(time.slice(11, 13)),
        sensor,
        unit,
        before,
        after,
      ]);
    const replaced = [
      [1, 'hotIn', 'Cel', 50, 60],
      [2, 'hotFlow', 'kg/s', 10, 11],
    ];
    expect(await values()).toEqual(replaced);
    await take(ann, `${head}E-1,${at(1)},70,10\n`);
    expect(await values()).toEqual(replaced);
    expect((await showReplaced(ann, second!)).rows.map(({ isChangedSince }) => isChangedSince)).toEqual([
      true,
      false,
    ]);
    expect((await showReplaced(ann, first!)).rows).toEqual([]);
    const volume = `tag,time,hot_flow[m3/h]\nE-1,${at(3)},36\n`;
    const { batch: fourth } = await take(ann, volume);
    expect((await showReplaced(ann, fourth!)).rows).toMatchObject([
      { sensor: 'hotFlow', before: 10, unit: 'kg/s', after: 0.01, unitAfter: 'm3/s' },
    ]);
    await expect(showReplaced(ann, 99)).rejects.toMatchObject({ code: 'not-found' });
  });
});
