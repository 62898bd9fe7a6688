import { readdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { Client } from 'pg';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { LOCAL_ACTOR } from '@/lib/contract/actor';
import { nominalSensors } from '@/lib/core/checks/nominal-sensors';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { makeReadingColumns, type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { makeReadingChunk, type ReadingChunk } from '@/lib/ingest/reading-chunk';
import { makeChange } from '@/lib/store/entities/change';
import { importColumns } from '@/lib/work/import-readings';
import { authorOf } from '../support/author-of';
import { writeDaily } from '../support/write-daily';
import { DATABASES, needServer, type OpenDatabase, openDatabase } from './series-databases';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const START = Date.parse('2026-01-20T00:00:00Z');
const TAGS = ['E-1', 'E-2'];
const EVER = Number.MAX_SAFE_INTEGER;

let endServer: () => Promise<void>;
beforeAll(async () => {
  endServer = await needServer();
});
afterAll(() => endServer());

let database: OpenDatabase;
const series = () => database.context.store.series;
const idOf = (tag: string) => database.ids.get(tag)!;

/** Readings of both units minute by minute, one unit after the other within a minute; hotIn counts the rows. */
function* byMinute(rows: number, from = 0): Generator<ReadingChunk> {
  for (let at = 0; at < rows; at += 8192) {
    const length = Math.min(8192, rows - at);
    const chunk = makeReadingChunk(TAGS, length);
    for (let i = 0; i < length; i++) {
      chunk.tag[i] = (at + i) % 2;
      chunk.time[i] = START + ((at + i) >> 1) * MINUTE;
      chunk.hotIn[i] = from + at + i;
    }
    yield Object.assign(chunk, { length, read: length });
  }
}

async function* given(chunks: Iterable<ReadingChunk>) {
  yield* chunks;
}

const take = (chunks: AsyncIterable<ReadingChunk>) =>
  series().importBatch({
    source: 'file',
    at: START,
    actor: LOCAL_ACTOR,
    chunks,
    unitIds: database.ids,
    check: false,
  });

function gate(): { open: () => void; opened: Promise<void> } {
  let open = () => {};
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { open, opened };
}

describe.each(DATABASES)('an import on %s', (kind) => {
  beforeEach(async () => {
    database = await openDatabase(kind, TAGS);
  });
  afterEach(() => database.remove());

  it('takes more than is kept in memory, the last value of each instant, and leaves no file behind', async () => {
    const rows = 140_000;
    // The first rows once more at the end, with other values: far behind those they replace.
    const twice = [...byMinute(rows), ...byMinute(5_000, 1_000_000)];
    expect(await take(given(twice))).toMatchObject({ read: 145_000, added: rows, replaced: 5_000 });
    const { hotIn, time } = await series().readReadings(idOf('E-2'), 0, EVER);
    expect(time).toHaveLength(rows / 2);
    const expected = Array.from({ length: rows / 2 }, (_, i) => (i < 2_500 ? 1_000_000 : 0) + 2 * i + 1);
    expect(Array.from(hotIn)).toEqual(expected);
    const again = await take(given(byMinute(rows)));
    expect(again).toMatchObject({ added: 0, replaced: 5_000, unchanged: rows - 5_000 });
    await series().undoBatch(again.batch!, { actor: LOCAL_ACTOR, at: START });
    expect((await series().readReadings(idOf('E-2'), 0, EVER)).hotIn).toEqual(hotIn);
    async function* breaking() {
      yield* byMinute(rows);
      yield* byMinute(rows);
      throw new Error('the disk is gone');
    }
    await expect(take(breaking())).rejects.toThrow('the disk is gone');
    if (kind === 'SQLite') {
      const files = readdirSync(dirname(database.url.replace('file:', '')));
      expect(files.filter((name) => name.includes('import'))).toEqual([]);
    }
  }, 240_000);

  it('holds nobody up while its file comes', async () => {
    const [asked, file] = [gate(), gate()];
    async function* slow() {
      yield* byMinute(10);
      asked.open();
      await file.opened;
      yield* byMinute(20);
    }
    const imported = take(slow());
    await asked.opened;
    await series().markDue(idOf('E-2'), 7);
    await makeChange(database.context.store.entities, authorOf({ by: 'test', at: 0 }), ({ transaction }) =>
      transaction.setting.create({ data: { key: 'meanwhile', value: '' } }),
    );
    expect(await take(given(byMinute(4, 100)))).toMatchObject({ added: 4 });
    file.open();
    expect(await imported).toMatchObject({ read: 30, added: 16, replaced: 4, unchanged: 10 });
  });

  it('of overlapping rows by two at once: each counts what it found, and the later one stands', async () => {
    const [first, second] = await Promise.all([
      take(given(byMinute(600))),
      take(given(byMinute(600, 10_000))),
    ]);
    expect([first, second].map(({ added }) => added).sort()).toEqual([0, 600]);
    expect([first, second].map(({ replaced }) => replaced).sort()).toEqual([0, 600]);
    const later = first.batch! > second.batch! ? 0 : 10_000;
    const { hotIn } = await series().readReadings(idOf('E-1'), 0, EVER);
    expect(Array.from(hotIn)).toEqual(Array.from({ length: 300 }, (_, i) => later + 2 * i));
  });

  it('changes the revision, as its undoing and a change of entities do, and nothing else does', async () => {
    const seen = [await series().revision()];
    const { batch } = await take(given(byMinute(2)));
    seen.push(await series().revision());
    await series().markDue(idOf('E-1'), 5);
    expect(await series().revision()).toBe(seen[1]);
    await series().undoBatch(batch!, { actor: LOCAL_ACTOR, at: START });
    seen.push(await series().revision());
    await makeChange(database.context.store.entities, authorOf({ by: 'test', at: 0 }), async () => {});
    seen.push(await series().revision());
    expect(new Set(seen).size).toBe(4);
  });

  it('gives the same in bulk as one by one', async () => {
    await take(given(byMinute(400)));
    const stretches = [
      { unitId: idOf('E-2'), from: START + HOUR, to: START + 2 * HOUR },
      { unitId: idOf('E-1'), from: 0, to: EVER },
      { unitId: idOf('E-2'), from: 0, to: START },
    ];
    const single = stretches.map(({ unitId, from, to }) => series().readReadings(unitId, from, to));
    expect((await Promise.all(single)).map(({ time }) => time.length)).toEqual([60, 200, 0]);
    const last = START + 199 * MINUTE;
    const ends = { first: START, last };
    expect(await series().readingSpans([idOf('E-1'), 999])).toEqual(new Map([[idOf('E-1'), ends]]));
    expect(await series().newestReadings()).toEqual(new Map(TAGS.map((tag) => [idOf(tag), last])));

    const daily = makeDailyColumns(40);
    daily.day.set(daily.day.map((_, i) => 20_000 + i));
    daily.foulingResistance.fill(1e-5 / 3);
    for (const tag of TAGS) await writeDaily(database.context, idOf(tag), daily);
    const asked = [{ unitId: idOf('E-1') }, { unitId: idOf('E-2'), fromDay: 20_035 }, { unitId: 999 }];
    const read = await series().readDailyOf(asked);
    expect(read.get(idOf('E-1'))).toEqual(daily);
    expect(Array.from(read.get(idOf('E-2'))!.day)).toEqual([20_035, 20_036, 20_037, 20_038, 20_039]);
    expect(read.get(999)!.day).toHaveLength(0);
    expect(await series().readDaily(idOf('E-2'), 20_035)).toEqual(read.get(idOf('E-2')));
  });
});

/** Two years of readings: sensors that move, one that is typed in every month, one of a single value, one that is missing. */
function twoYears(): ReadingColumns {
  const readings = makeReadingColumns(1460);
  readings.time.forEach((_, i) => {
    readings.time[i] = START - (1460 - i) * 12 * HOUR;
    readings.hotIn[i] = 80 + (i % 7);
    readings.hotOut[i] = 60 + (i % 5);
    readings.coldIn[i] = 20 + Math.floor(i / 60);
    readings.coldOut[i] = i < 700 ? 30 : 30 + (i % 3);
    readings.hotFlow[i] = 12.5;
  });
  return readings;
}

describe.each(DATABASES)('nominal sensors on %s', (kind) => {
  it('are those of the whole record, whatever is known of its beginning', async () => {
    database = await openDatabase(kind, TAGS);
    const readings = twoYears();
    await importColumns(database.context, 'E-1', readings);
    for (const to of [1, 100, 699, 701, 1100, 1460]) {
      const asked = { unitId: idOf('E-1'), to: readings.time[to - 1]! + 1 };
      const whole = nominalSensors(sliceReadings(readings, 0, to));
      expect(await series().nominalSensors(asked.unitId, asked.to)).toBe(whole);
      for (const known of [1, 2, 59, 61, 698, 1099].filter((length) => length <= to)) {
        const before = {
          bits: nominalSensors(sliceReadings(readings, 0, known)),
          to: readings.time[known - 1]! + 1,
        };
        const found = await series().nominalSensorsOf([{ ...asked, known: before }]);
        expect([known, to, found.get(asked.unitId)]).toEqual([known, to, whole]);
      }
    }
    // Cold flow missing and hot flow of one value: both nominal to the end.
    expect(nominalSensors(readings) & 0b110000).toBe(0b110000);
    await database.remove();
  }, 120_000);
});

describe('months on PostgreSQL', () => {
  it('are made as they are needed, while somebody reads on in an older transaction', async () => {
    database = await openDatabase('PostgreSQL', TAGS);
    await take(given(byMinute(10)));
    const reader = new Client(database.url);
    await reader.connect();
    await reader.query('BEGIN');
    await reader.query('SELECT count(*) FROM reading');
    // Half a year on, and before 1970.
    const chunk = [...byMinute(4)][0]!;
    chunk.time.set([START + 180 * DAY, START + 180 * DAY, -400 * DAY, -400 * DAY]);
    expect(await take(given([chunk]))).toMatchObject({ added: 4 });
    const { rows } = await reader.query(
      `SELECT relname AS name FROM pg_class JOIN pg_inherits ON inhrelid = oid
       WHERE inhparent = 'reading'::regclass ORDER BY name`,
    );
    expect(rows.map(({ name }) => name)).toEqual(['reading_1968_11', 'reading_2026_01', 'reading_2026_07']);
    await reader.end();
    expect(await series().readingSpan(idOf('E-1'))).toEqual({ first: -400 * DAY, last: START + 180 * DAY });
    expect(await series().newestReadings()).toEqual(
      new Map(TAGS.map((tag) => [idOf(tag), START + 180 * DAY])),
    );
    await database.remove();
  });
});
