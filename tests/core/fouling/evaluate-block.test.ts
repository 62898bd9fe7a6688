import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { BLOCK, makeBlock } from '@/lib/core/fouling/evaluate-block';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import {
  EVALUATION_BIT_COLUMNS,
  EVALUATION_FLOAT_COLUMNS,
  makeEvaluationColumns,
} from '@/lib/core/fouling/evaluation-columns';
import { makeReadingColumns, type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { exchangerOf, recordOf } from '../../bench/kernel-data';

const DAY_MS = 86_400_000;
const exchanger = exchangerOf('shell');
const settings = DEFAULT_CHECK_SETTINGS;

/** Readings days apart, so that none has a neighbour to be judged by: one with a value missing, one at rest, one reversed. */
function apart(count: number): ReadingColumns {
  const readings = recordOf(exchanger, 3, { count, stepMs: 5 * DAY_MS });
  readings.hotFlow[4] = Number.NaN;
  readings.hotIn[7] = Number.NaN;
  readings.coldOut[7] = Number.NaN;
  readings.hotFlow[11] = 0;
  readings.coldFlow[11] = 0;
  readings.hotOut[20] = readings.hotIn[20]! + 2;
  readings.coldIn[33] = 90;
  return readings;
}

const evaluate = (readings: ReadingColumns) =>
  evaluateReadings({ exchanger, settings, readings, nominal: 0 });

describe('a block of readings', () => {
  it.each([BLOCK - 1, BLOCK, BLOCK + 1, 3 * BLOCK + 5])(
    'gives each of %i readings the figures that it has alone',
    (count) => {
      const readings = apart(count);
      const together = evaluate(readings);
      for (let i = 0; i < count; i++) {
        const alone = evaluate(sliceReadings(readings, i, i + 1));
        for (const name of [...EVALUATION_FLOAT_COLUMNS, ...EVALUATION_BIT_COLUMNS, 'reasons'] as const)
          expect(together[name][i], `${name} of reading ${i}`).toBe(alone[name][0]);
      }
    },
  );

  it('leaves nothing of an earlier reading in a row that cannot be worked out', () => {
    const together = evaluate(apart(3 * BLOCK));
    const { duty, overallU, cleanU, inferred, reasons } = together;
    expect([duty[7], overallU[7], cleanU[7]]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
    expect([overallU[20], cleanU[20]]).toEqual([Number.NaN, Number.NaN]);
    expect([inferred[3], inferred[4], inferred[5]]).toEqual([0, 1 << 4, 0]);
    expect([reasons[5], reasons[4]]).toEqual([0, 0]);
    expect([7, 11, 20, 33].every((i) => reasons[i] !== 0)).toBe(true);
  });

  it('has room for no more readings than there are', () => {
    const block = makeBlock(makeReadingColumns(3), makeEvaluationColumns(3));
    expect(block).toHaveLength(3);
    expect(evaluate(makeReadingColumns(0)).time).toHaveLength(0);
  });
});
