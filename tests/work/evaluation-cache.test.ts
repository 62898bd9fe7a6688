import { describe, expect, it } from 'vitest';
import { evaluateOver } from '@/lib/core/fouling/evaluate-over';
import {
  EVALUATION_BIT_COLUMNS,
  EVALUATION_FLOAT_COLUMNS,
  type EvaluationColumns,
  sliceEvaluation,
} from '@/lib/core/fouling/evaluation-columns';
import { firstNotBefore } from '@/lib/core/series/first-not-before';
import { makeReadingColumns, type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { changedStretches } from '@/lib/work/unit-readings/changed-stretches';
import { type Asked, EvaluationCache } from '@/lib/work/unit-readings/evaluation-cache';
import { DAY_MS, EPOCH } from '../support/forward-readings';
import { unitRecords } from '../support/unit-records';

const RECORDS = unitRecords((readings) => {
  // Spikes, a frozen sensor and a gap: what is judged by neighbours must not hang on where an evaluation was cut.
  for (const row of [100, 700, 1431, 2003]) readings.hotOut[row]! += 25;
  readings.coldFlow.fill(readings.coldFlow[1500]!, 1500, 1560);
  readings.hotIn.fill(Number.NaN, 900, 930);
});
const { bases } = RECORDS;
const judging = {
  bases: [...bases, { ...bases[0]!, from: EPOCH + 55 * DAY_MS, cleanFactors: { ...bases[0]!.cleanFactors } }],
  nominal: 0,
  judged: [{ from: EPOCH + 30 * DAY_MS, to: EPOCH + 31 * DAY_MS, verdict: 'exclude' as const }],
};
const day = (at: number) => EPOCH + at * DAY_MS;

/** What holds the readings, and counts how often they are read. */
function shelf(readings: ReadingColumns) {
  const held = { readings, reads: 0 };
  const readReadings = async (from: number, to: number) => {
    held.reads++;
    const { time } = held.readings;
    return sliceReadings(held.readings, firstNotBefore(time, from), firstNotBefore(time, to));
  };
  const asked = (from: number, to: number, changes: Partial<Asked> = {}): Asked => ({
    unitId: 1,
    from,
    to,
    judging,
    judgedBy: 'first',
    readAt: '1',
    readReadings,
    ...changes,
  });
  return { held, asked };
}

function rowsOf({ evaluation }: { evaluation: EvaluationColumns }, from: number, to: number) {
  const { time } = evaluation;
  return plain(sliceEvaluation(evaluation, firstNotBefore(time, from), firstNotBefore(time, to)));
}

const plain = (columns: EvaluationColumns) =>
  [...EVALUATION_FLOAT_COLUMNS, ...EVALUATION_BIT_COLUMNS, 'time' as const, 'reasons' as const].map((name) =>
    Buffer.from(columns[name].slice().buffer).toString('base64'),
  );

const wholeOf = (readings: ReadingColumns, of = judging) => ({
  evaluation: evaluateOver(of.bases, readings, of),
});

describe('evaluated readings kept in memory', () => {
  it('are those of the whole record to the last bit, whatever was looked at before', async () => {
    const { asked } = shelf(RECORDS.readings);
    const cache = new EvaluationCache();
    const whole = wholeOf(RECORDS.readings);
    for (const [from, to] of [
      [40, 42],
      [20, 35],
      [41, 41.5],
      [0, 120],
      [54, 56],
    ] as const) {
      const found = await cache.evaluated(asked(day(from), day(to)));
      expect(rowsOf(found, day(from), day(to))).toEqual(rowsOf(whole, day(from), day(to)));
    }
  });

  it('are not read again while nothing has changed and nobody looks further', async () => {
    const { held, asked } = shelf(RECORDS.readings);
    const cache = new EvaluationCache();
    await cache.evaluated(asked(day(0), day(120)));
    await cache.evaluated(asked(day(50), day(51)));
    await cache.evaluated(asked(day(3), day(90)));
    expect(held.reads).toBe(1);
    await Promise.all([1, 2, 3].map(() => cache.evaluated(asked(day(0), day(120), { unitId: 2 }))));
    expect(held.reads).toBe(2);
  });

  it('show a reading that was added, replaced or taken away at once', async () => {
    const { held, asked } = shelf(sliceReadings(RECORDS.readings, 0, 2500));
    const cache = new EvaluationCache();
    await cache.evaluated(asked(day(0), day(120)));
    const later = sliceReadings(RECORDS.readings, 0, RECORDS.readings.time.length);
    const replaced = { ...later, hotIn: later.hotIn.slice() };
    replaced.hotIn[1200]! += 3;
    for (const [readAt, readings] of [
      ['2', later],
      ['3', replaced],
      ['4', without(later, 1300)],
    ] as const) {
      held.readings = readings;
      const found = await cache.evaluated(asked(day(0), day(120), { readAt }));
      expect(rowsOf(found, day(0), day(120))).toEqual(rowsOf(wholeOf(readings), day(0), day(120)));
    }
  });

  it('are judged anew where something else holds', async () => {
    const { asked } = shelf(RECORDS.readings);
    const cache = new EvaluationCache();
    await cache.evaluated(asked(day(0), day(120)));
    const other = { ...judging, judged: [] };
    const found = await cache.evaluated(asked(day(0), day(120), { judging: other, judgedBy: 'second' }));
    const expected = rowsOf(wholeOf(RECORDS.readings, other), day(0), day(120));
    expect(rowsOf(found, day(0), day(120))).toEqual(expected);
    expect(expected).not.toEqual(rowsOf(wholeOf(RECORDS.readings), day(0), day(120)));
  });

  it('take no more memory than they may: the unit looked at longest ago goes first', async () => {
    const { held, asked } = shelf(RECORDS.readings);
    const probe = new EvaluationCache();
    await probe.evaluated(asked(day(0), day(120)));
    const cache = new EvaluationCache(probe.bytes * 2.5);
    for (const unitId of [1, 2, 1, 3]) await cache.evaluated(asked(day(0), day(120), { unitId }));
    expect(cache.bytes).toBe(probe.bytes * 2);
    held.reads = 0;
    await cache.evaluated(asked(day(0), day(120), { unitId: 1 }));
    expect(held.reads).toBe(0);
    await cache.evaluated(asked(day(0), day(120), { unitId: 2 }));
    expect(held.reads).toBe(1);
    const small = new EvaluationCache(probe.bytes / 2);
    const found = await small.evaluated(asked(day(0), day(120)));
    expect(found.readings.time.length).toBeGreaterThan(2000);
    expect(small.bytes).toBe(0);
  });

  it('leave the thread to others while a long record is evaluated', async () => {
    const { asked } = shelf(RECORDS.readings);
    const done = new EvaluationCache().evaluated(asked(day(0), day(120)));
    let immediates = 0;
    const count = () => {
      immediates++;
      if (immediates < 1000) setImmediate(count);
    };
    setImmediate(count);
    await done;
    // 2,880 readings are evaluated in two turns.
    expect(immediates).toBeGreaterThanOrEqual(2);
  });
});

describe('what changed between two records of a unit', () => {
  it('is told by the instants at which they differ, joined where they lie within a day', () => {
    const before = sliceReadings(RECORDS.readings, 0, 2000);
    const after = {
      ...sliceReadings(RECORDS.readings, 0, 2002),
      coldIn: RECORDS.readings.coldIn.slice(0, 2002),
    };
    after.coldIn[100]! += 1;
    after.coldIn[110]! += 1;
    const at = (row: number) => RECORDS.readings.time[row]!;
    expect(changedStretches(before, after)).toEqual([
      { from: at(100), to: at(110) + 1 },
      { from: at(2000), to: at(2001) + 1 },
    ]);
    expect(changedStretches(after, after)).toEqual([]);
    expect(changedStretches(makeReadingColumns(0), makeReadingColumns(0))).toEqual([]);
  });
});

function without(readings: ReadingColumns, row: number): ReadingColumns {
  const columns = Object.entries(readings).map(([name, column]) => [
    name,
    (column as Float64Array).filter((_: number, i: number) => i !== row),
  ]);
  return Object.fromEntries(columns) as ReadingColumns;
}
