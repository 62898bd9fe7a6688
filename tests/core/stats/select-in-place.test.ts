import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { selectInPlace, sortSmall } from '@/lib/core/stats/select-in-place';

describe('sorting of a small sample', () => {
  it('is ascending, what is none last', () => {
    expect([...sortSmall(Float64Array.of(3, Number.NaN, -1, 2, 2))]).toEqual([-1, 2, 2, 3, Number.NaN]);
  });
});

describe('selection', () => {
  it('puts two ranks where sorting would, and touches nothing behind the sample', () => {
    const value = fc.oneof(
      fc.double({ noNaN: true, min: -9, max: 9 }),
      fc.integer({ max: 3 }),
      fc.constant(Number.NaN),
    );
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 90 }),
        fc.nat(),
        fc.nat(5),
        (sample, at, behind) => {
          const rank = at % sample.length;
          const values = Float64Array.from([...sample, ...Array.from({ length: behind }, () => -1e6)]);
          const sorted = Float64Array.from(sample).sort();
          selectInPlace(values, sample.length, rank);
          // Either zero may stand for the other.
          expect(values[rank]! + 0).toBe(sorted[rank]! + 0);
          if (rank + 1 < sample.length) expect(values[rank + 1]! + 0).toBe(sorted[rank + 1]! + 0);
          expect(values.subarray(sample.length).every((own) => own === -1e6)).toBe(true);
        },
      ),
      { seed: 20261130 },
    );
  });
});
