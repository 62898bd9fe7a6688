import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { reduceColumns } from '@/lib/core/series/reduce-columns';
import { typicalInterval } from '@/lib/core/series/typical-interval';

const HOUR = 3_600_000;
const hours = (...at: number[]) => Float64Array.from(at, (hour) => hour * HOUR);

describe('reduceColumns', () => {
  test('keeps every reading when there are more buckets than readings', () => {
    const reduced = reduceColumns(hours(0, 1, 2), [Float64Array.of(5, 7, 6)], {
      from: 0,
      to: 3 * HOUR,
      buckets: 30,
      gap: 2 * HOUR,
    });
    expect([...reduced.time]).toEqual([0, HOUR, 2 * HOUR]);
    expect([...reduced.columns[0]!]).toEqual([5, 7, 6]);
  });

  test('keeps the least and the greatest of a bucket in the order they occurred, per column', () => {
    const rising = Float64Array.of(1, 9, 2, 3);
    const falling = Float64Array.of(8, 4, 0, 5);
    const window = { from: 0, to: 4 * HOUR, buckets: 1, gap: 9 * HOUR };
    const reduced = reduceColumns(hours(0, 1, 2, 3), [rising, falling], window);
    expect([...reduced.time]).toEqual([0, 3 * HOUR]);
    expect(reduced.columns.map((column) => [...column])).toEqual([
      [1, 9],
      [8, 0],
    ]);
  });

  test('breaks the line with one empty row where readings are further apart than the gap', () => {
    const window = { from: 0, to: 20 * HOUR, buckets: 40, gap: 2 * HOUR };
    const reduced = reduceColumns(hours(0, 1, 9, 10), [Float64Array.of(1, 2, 3, 4)], window);
    expect([...reduced.time]).toEqual([0, HOUR, 5 * HOUR, 9 * HOUR, 10 * HOUR]);
    expect([...reduced.columns[0]!]).toEqual([1, 2, Number.NaN, 3, 4]);
  });

  test('leaves a column empty where its sensor gave nothing although the others did', () => {
    const window = { from: 0, to: 4 * HOUR, buckets: 2, gap: 9 * HOUR };
    const dead = Float64Array.of(1, 2, Number.NaN, Number.NaN);
    const reduced = reduceColumns(hours(0, 1, 2, 3), [dead, Float64Array.of(1, 1, 1, 1)], window);
    expect([...reduced.columns[0]!]).toEqual([1, 2, Number.NaN, Number.NaN]);
    expect([...reduced.columns[1]!]).toEqual([1, 1, 1, 1]);
  });

  test('ignores readings outside the window', () => {
    const window = { from: 1 * HOUR, to: 2 * HOUR, buckets: 9, gap: HOUR };
    const reduced = reduceColumns(hours(0, 1, 2, 3), [Float64Array.of(0, 1, 2, 3)], window);
    expect([...reduced.columns[0]!]).toEqual([1, 2]);
  });

  test('refuses columns of unequal length, an empty window and no bucket', () => {
    const window = { from: 0, to: HOUR, buckets: 1, gap: HOUR };
    expect(() => reduceColumns(hours(0), [hours()], window)).toThrow(RangeError);
    expect(() => reduceColumns(hours(0), [], { ...window, to: 0 })).toThrow(RangeError);
    expect(() => reduceColumns(hours(0), [], { ...window, buckets: 0 })).toThrow(RangeError);
  });

  test('gives at most two rows a bucket and one a gap, ascending, and loses no extreme', () => {
    const steps = fc.array(
      fc.tuple(fc.integer({ min: 1, max: 30 }), fc.double({ min: -1e3, max: 1e3, noNaN: true })),
    );
    fc.assert(
      fc.property(steps, fc.integer({ min: 1, max: 50 }), (given, buckets) => {
        let at = 0;
        const time = Float64Array.from(given, ([step]) => (at += step));
        const values = Float64Array.from(given, ([, value]) => value);
        const reduced = reduceColumns(time, [values], { from: 0, to: at + 1, buckets, gap: 10 });
        const finite = reduced.columns[0]!.filter((value) => !Number.isNaN(value));
        expect(finite.length).toBeLessThanOrEqual(Math.min(time.length, 2 * buckets) + buckets);
        expect(reduced.time.every((t, i) => i === 0 || t >= reduced.time[i - 1]!)).toBe(true);
        if (values.length > 0) {
          expect(Math.max(...finite)).toBe(Math.max(...values));
          expect(Math.min(...finite)).toBe(Math.min(...values));
        }
      }),
      { seed: 20261125, numRuns: 1000 },
    );
  });
});

describe('typicalInterval', () => {
  test('is the median step, so that a gap does not change it', () => {
    expect(typicalInterval(hours(0, 1, 2, 50, 51))).toBe(HOUR);
    expect(typicalInterval(hours(0, 1, 4))).toBe(2 * HOUR);
  });

  test('is unknown with fewer than two readings', () => {
    expect(typicalInterval(hours(3))).toBeNaN();
  });
});
