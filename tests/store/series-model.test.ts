import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LOCAL_ACTOR } from '@/lib/contract/actor';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingChunk, type ReadingChunk } from '@/lib/ingest/reading-chunk';
import { DATABASES, needServer, type OpenDatabase, openDatabase } from './series-databases';
import { type FileRow, SeriesModel } from './series-model';

const HOUR = 3_600_000;
const TAGS = ['E-1', 'E-2'];
/** Each sequence has a stretch of time for itself, so that one database serves them all. */
const STRETCH = 500 * HOUR;
const SEQUENCES = 25;

let endServer: () => Promise<void>;
let databases: OpenDatabase[];
beforeAll(async () => {
  endServer = await needServer();
  databases = await Promise.all(DATABASES.map((kind) => openDatabase(kind, TAGS)));
});
afterAll(async () => {
  await Promise.all(databases.map((database) => database.remove()));
  await endServer();
});

const value = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom<(number | null)[]>(null, null, 0, -0, 1, 0.1 + 0.2) },
  { weight: 1, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }) },
);
const row: fc.Arbitrary<FileRow> = fc.record({
  unit: fc.constantFrom(...TAGS),
  hour: fc.integer({ min: 0, max: 5 }),
  values: fc.array(value, { minLength: SENSORS.length, maxLength: SENSORS.length }),
  basis: fc.integer({ min: 0, max: 3 }),
});
const step = fc.oneof(
  { weight: 3, arbitrary: fc.record({ rows: fc.array(row, { maxLength: 12 }), cut: fc.nat(12) }) },
  { weight: 1, arbitrary: fc.record({ undo: fc.nat(5) }) },
);

function chunkOf(rows: readonly FileRow[], start: number): ReadingChunk {
  const chunk = makeReadingChunk(TAGS, rows.length);
  rows.forEach(({ unit, hour, values, basis }, i) => {
    chunk.tag[i] = TAGS.indexOf(unit);
    chunk.time[i] = start + hour * HOUR;
    chunk.flowBasis[i] = basis;
    SENSORS.forEach((sensor, s) => {
      chunk[sensor][i] = values[s] ?? Number.NaN;
    });
  });
  return Object.assign(chunk, { length: rows.length, read: rows.length });
}

async function* chunksOf(rows: readonly FileRow[], cut: number, start: number) {
  yield chunkOf(rows.slice(0, cut), start);
  yield chunkOf(rows.slice(cut), start);
}

type Sequence = { database: OpenDatabase; start: number; batches: number[] };

async function take(sequence: Sequence, rows: readonly FileRow[], cut: number, check: boolean) {
  const { added, replaced, unchanged, batch } = await sequence.database.context.store.series.importBatch({
    source: 'sequence',
    actor: LOCAL_ACTOR,
    at: sequence.start,
    chunks: chunksOf(rows, cut, sequence.start),
    unitIds: sequence.database.ids,
    check,
  });
  if (batch !== null) sequence.batches.push(batch);
  return { added, replaced, unchanged };
}

async function standing({ database: { context, ids }, start }: Sequence) {
  const stretches = TAGS.map((tag) => ({ unitId: ids.get(tag)!, from: start, to: start + STRETCH }));
  const readings = await Promise.all(
    stretches.map(({ unitId, from, to }) => context.store.series.readReadings(unitId, from, to)),
  );
  return readings.map((columns) =>
    Array.from(columns.time, (time, i) => ({
      hour: (time - start) / HOUR,
      values: SENSORS.map((sensor) => (Number.isNaN(columns[sensor][i]!) ? null : columns[sensor][i]!)),
      basis: columns.flowBasis[i]!,
    })),
  );
}

async function replacedBy({ database: { context, ids }, start, batches }: Sequence, index: number) {
  const rows = await context.store.series.replacedReadings(batches[index]!, 1000);
  const tagOf = new Map([...ids].map(([tag, id]) => [id, tag]));
  return rows.map(({ unitId, time, before, after }) => ({
    unit: tagOf.get(unitId)!,
    hour: (time - start) / HOUR,
    before,
    after,
  }));
}

async function agrees(sequence: Sequence, model: SeriesModel) {
  expect(await standing(sequence)).toEqual(TAGS.map((tag) => model.rowsOf(tag)));
  for (const [index, batch] of sequence.batches.entries()) {
    expect(await sequence.database.context.store.series.undoPreview(batch)).toEqual(model.preview(index));
    expect(await replacedBy(sequence, index)).toEqual(model.replacedBy(index));
  }
}

describe('sequences of imports and undos', () => {
  it('come to the same on each database as in plain objects, row by row and count by count', async () => {
    let sequences = 0;
    const steps = fc.array(step, { minLength: 2, maxLength: 7 });
    const same = fc.asyncProperty(steps, async (given) => {
      const start = Date.UTC(2001, 0, 1) + sequences++ * STRETCH;
      const model = new SeriesModel();
      const both = databases.map((database): Sequence => ({ database, start, batches: [] }));
      for (const step of given) {
        const imported = both[0]!.batches.length;
        if ('rows' in step) {
          const foretold = await Promise.all(both.map((one) => take(one, step.rows, step.cut, true)));
          const counts = await Promise.all(both.map((one) => take(one, step.rows, step.cut, false)));
          const expected = model.import(imported, step.rows);
          expect([...foretold, ...counts]).toEqual(Array(4).fill(expected));
        } else if (imported > 0) {
          const index = step.undo % imported;
          const expected = model.preview(index);
          const undo = ({ database, batches }: Sequence) =>
            database.context.store.series.undoBatch(batches[index]!, { actor: LOCAL_ACTOR, at: start });
          for (const undone of await Promise.all(both.map(undo)))
            if (undone !== null) expect(undone).toMatchObject(expected);
          model.undo(index);
        }
        for (const one of both) await agrees(one, model);
      }
    });
    await fc.assert(same, { numRuns: SEQUENCES, seed: 20261130 });
  }, 600_000);
});
