import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { LOCAL_ACTOR } from '@/lib/contract/actor';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { HOT_FLOW_IS_VOLUME } from '@/lib/core/series/reading-columns';
import { makeReadingChunk, type ReadingChunk } from '@/lib/ingest/reading-chunk';
import { listBatches, listSetAside } from '@/lib/store/entities/batches';
import type { TakenUnit } from '@/lib/store/series/analysis-store';
import { writeDaily } from '../support/write-daily';
import { DATABASES, needServer, type OpenDatabase, openDatabase } from './series-databases';

const HOUR = 3_600_000;
const START = Date.parse('2026-03-01T00:00:00Z');

let endServer: () => Promise<void>;
beforeAll(async () => {
  endServer = await needServer();
});
afterAll(() => endServer());

let database: OpenDatabase;
let ids: Map<string, number>;

type Row = { tag?: string; hour: number; hotIn?: number; hotFlow?: number; volume?: boolean };

function chunkOf(rows: Row[]): ReadingChunk {
  const tags = ['E-1', 'E-2'];
  const chunk = makeReadingChunk(tags, rows.length);
  rows.forEach((row, i) => {
    chunk.tag[i] = tags.indexOf(row.tag ?? 'E-1');
    chunk.time[i] = START + row.hour * HOUR;
    if (row.hotIn !== undefined) chunk.hotIn[i] = row.hotIn;
    if (row.hotFlow !== undefined) chunk.hotFlow[i] = row.hotFlow;
    if (row.volume) chunk.flowBasis[i] = HOT_FLOW_IS_VOLUME;
  });
  chunk.length = rows.length;
  chunk.read = rows.length;
  return chunk;
}

async function* chunks(...given: ReadingChunk[]) {
  yield* given;
}

const take = (rows: Row[], check = false) =>
  database.context.store.series.importBatch({
    source: 'test',
    at: START,
    actor: LOCAL_ACTOR,
    chunks: chunks(chunkOf(rows)),
    unitIds: ids,
    check,
  });

const read = () => database.context.store.series.readReadings(ids.get('E-1')!, 0, Number.MAX_SAFE_INTEGER);

describe.each(DATABASES)('on %s', (kind) => {
  beforeEach(async () => {
    database = await openDatabase(kind);
    ids = database.ids;
  });
  afterEach(() => database.remove());

  describe('a batch of readings', () => {
    it('adds new rows and gives them back in time order, whatever order they came in', async () => {
      const counts = await take([
        { hour: 3, hotIn: 53 },
        { hour: 1, hotIn: 51 },
        { hour: 2, hotIn: 52, hotFlow: 0.01, volume: true },
      ]);
      expect(counts).toMatchObject({ read: 3, added: 3, replaced: 0, unchanged: 0 });
      const readings = await read();
      expect(Array.from(readings.hotIn)).toEqual([51, 52, 53]);
      expect(Array.from(readings.flowBasis)).toEqual([0, HOT_FLOW_IS_VOLUME, 0]);
      expect(readings.coldIn[0]).toBeNaN();
    });

    it('changes nothing the second time', async () => {
      const rows = [
        { hour: 1, hotIn: 51 },
        { hour: 2, hotIn: 52, hotFlow: 10 },
      ];
      await take(rows);
      expect(await take(rows)).toMatchObject({ added: 0, replaced: 0, unchanged: 2, changed: new Map() });
    });

    it('leaves a stored value as it is where the new row has none, and fills what was missing', async () => {
      await take([{ hour: 1, hotIn: 51 }]);
      expect(await take([{ hour: 1, hotFlow: 10 }])).toMatchObject({ added: 1, replaced: 0 });
      const readings = await read();
      expect([readings.hotIn[0], readings.hotFlow[0]]).toEqual([51, 10]);
    });

    it('takes a flow of another basis for another value', async () => {
      await take([{ hour: 1, hotFlow: 10 }]);
      expect(await take([{ hour: 1, hotFlow: 10, volume: true }])).toMatchObject({ replaced: 1 });
      expect((await read()).flowBasis[0]).toBe(HOT_FLOW_IS_VOLUME);
    });

    it('replaces a changed value, keeps the old one, and puts it back when undone', async () => {
      await take([{ hour: 1, hotIn: 51 }]);
      const second = await take([
        { hour: 1, hotIn: 61 },
        { hour: 2, hotIn: 62 },
      ]);
      expect(second).toMatchObject({ added: 1, replaced: 1 });
      expect(Array.from((await read()).hotIn)).toEqual([61, 62]);
      const undone = await database.context.store.series.undoBatch(second.batch!, {
        actor: LOCAL_ACTOR,
        at: START,
      });
      expect(undone).toMatchObject({ removed: 1, restored: 1 });
      expect(Array.from((await read()).hotIn)).toEqual([51]);
    });

    it('stays undone when a later batch that replaced its rows is undone after it', async () => {
      await take([{ hour: 1, hotIn: 51 }]);
      const second = await take([
        { hour: 1, hotIn: 61 },
        { hour: 2, hotIn: 62 },
      ]);
      const third = await take([
        { hour: 1, hotIn: 71 },
        { hour: 2, hotIn: 72 },
      ]);
      const { series } = database.context.store;
      await series.undoBatch(second.batch!, { actor: LOCAL_ACTOR, at: START });
      expect(Array.from((await read()).hotIn)).toEqual([71, 72]);
      await series.undoBatch(third.batch!, { actor: LOCAL_ACTOR, at: START });
      expect(Array.from((await read()).hotIn)).toEqual([51]);
      const [, , first] = await listBatches(database.context.store.entities, 3);
      expect(first).toMatchObject({ undoneAt: null });
    });

    it('marks the changed units due from their oldest change', async () => {
      const { series } = database.context.store;
      await database.context.store.entities.unitDue.deleteMany();
      await take([
        { hour: 5, hotIn: 51 },
        { hour: 2, hotIn: 52 },
      ]);
      const due = await series.due();
      expect([...due.keys()]).toEqual([ids.get('E-1')!]);
      expect(due.get(ids.get('E-1')!)!.since).toBe(START + 2 * HOUR);
    });

    it('leaves a unit due when readings arrive between the start of an analysis and its end', async () => {
      const { series } = database.context.store;
      const { analysis } = series;
      const takeUnits = () =>
        analysis.takeDue({ worker: 'w', phase: 'own', most: 9, leaseMs: 60_000, of: null });
      const done = (units: TakenUnit[]) =>
        analysis.saveAnalysed(
          'w',
          units.map((unit) => ({ ...unit, after: 'done', written: null })),
        );
      const unitId = ids.get('E-1')!;
      await take([{ hour: 1, hotIn: 51 }]);
      const seen = (await series.due()).get(unitId)!;
      const taken = await takeUnits();
      await take([{ hour: 5, hotIn: 55 }]);
      await done(taken);
      const left = (await series.due()).get(unitId)!;
      expect(left.mark).not.toBe(seen.mark);
      await done(await takeUnits());
      expect((await series.due()).has(unitId)).toBe(false);
    });

    it('stores nothing when it is only checked', async () => {
      expect(await take([{ hour: 1, hotIn: 51 }], true)).toMatchObject({ batch: null, added: 1 });
      expect((await read()).time.length).toBe(0);
      expect(await listBatches(database.context.store.entities, 10)).toEqual([]);
    });

    it('stores nothing at all when it fails halfway', async () => {
      async function* breaking() {
        yield chunkOf([{ hour: 1, hotIn: 51 }]);
        throw new Error('the disk is gone');
      }
      const batch = {
        source: 'test',
        at: START,
        actor: LOCAL_ACTOR,
        chunks: breaking(),
        unitIds: ids,
        check: false,
      };
      await expect(database.context.store.series.importBatch(batch)).rejects.toThrow('the disk is gone');
      expect((await read()).time.length).toBe(0);
    });

    it('keeps rows set aside with line, text and reason', async () => {
      const chunk = chunkOf([{ hour: 1, hotIn: 51 }]);
      chunk.setAside.push({
        line: 7,
        text: 'E-1,yesterday,51',
        reason: 'time-not-readable',
        field: 'time',
        message: 'is no time',
      });
      const { batch } = await database.context.store.series.importBatch({
        source: 'test',
        at: START,
        actor: LOCAL_ACTOR,
        chunks: chunks(chunk),
        unitIds: ids,
        check: false,
      });
      const kept = await listSetAside(database.context.store.entities, batch!, 10);
      expect(kept).toMatchObject([{ line: 7, text: 'E-1,yesterday,51', reason: 'time-not-readable' }]);
    });
  });

  describe('daily figures', () => {
    it('come back as they were, NaN for what is not there', async () => {
      const { series } = database.context.store;
      const unitId = ids.get('E-1')!;
      const daily = makeDailyColumns(3);
      daily.day.set([20000, 20001, 20002]);
      daily.accepted.set([24, 0, 12]);
      daily.worstReason.set([-1, 3, -1]);
      daily.foulingResistance.set([1e-5, Number.NaN, 3e-5]);
      await writeDaily(database.context, unitId, daily);
      expect(await series.readDaily(unitId)).toEqual(daily);
      expect((await series.readDaily(unitId, 20001)).day.length).toBe(2);
    });
  });
});
