import { describe, expect, it } from 'vitest';
import { median, quantile, quantileOfSorted } from '@/lib/core/stats/quantile';
import { makeRandom } from '@/lib/core/stats/random';

describe('quantile', () => {
  it('uses definition 7 (R-7): 1 to 10 have the quartiles 3.25 and 7.75', () => {
    const values = [10, 3, 1, 2, 9, 4, 8, 5, 7, 6];
    expect(quantile(values, 0.25)).toBe(3.25);
    expect(quantile(values, 0.75)).toBe(7.75);
    expect(quantile(values, 0)).toBe(1);
    expect(quantile(values, 1)).toBe(10);
  });

  it('leaves the sample as it was', () => {
    const values = [3, 1, 2];
    expect(median(values)).toBe(2);
    expect(values).toEqual([3, 1, 2]);
  });

  it('is the only value of a sample of one, the middle of two, and NaN for none', () => {
    expect(quantile([4], 0.9)).toBe(4);
    expect(median([1, 2])).toBe(1.5);
    expect(quantileOfSorted([], 0.5)).toBeNaN();
  });

  it('refuses a probability outside 0 to 1', () => {
    expect(() => quantile([1], 1.1)).toThrow(RangeError);
    expect(() => quantile([1], Number.NaN)).toThrow(RangeError);
  });

  it('is that of the sorted sample, to the last digit: any size, with equal values, in order or against it', () => {
    const random = makeRandom(7);
    for (const size of [1, 2, 3, 24, 25, 26, 100, 501]) {
      const samples = [
        Float64Array.from({ length: size }, () => random.normal()),
        Float64Array.from({ length: size }, () => Math.floor(4 * random.uniform())),
        Float64Array.from({ length: size }, (_, i) => i),
        Float64Array.from({ length: size }, (_, i) => -i),
      ];
      for (const values of samples) {
        for (const probability of [0, 0.1, 0.5, 0.83, 1])
          expect(quantile(values, probability)).toBe(quantileOfSorted(values.toSorted(), probability));
      }
    }
  });

  it('counts values that are none as the largest, as sorting does', () => {
    const values = Float64Array.from({ length: 60 }, (_, i) => (i % 7 === 3 ? Number.NaN : (i * 37) % 60));
    for (const probability of [0.1, 0.5, 0.8, 0.97])
      expect(quantile(values, probability)).toBe(quantileOfSorted(values.toSorted(), probability));
  });
});
