import { describe, expect, it } from 'vitest';
import { median, quantile, quantileOfSorted } from '@/lib/core/stats/quantile';

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
});
