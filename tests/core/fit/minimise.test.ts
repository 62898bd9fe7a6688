import { describe, expect, it } from 'vitest';
import { findMinimum } from '@/lib/core/fit/minimise';

describe('bounded minimum', () => {
  it('finds the least of x·ln(x), −1/e at 1/e', () => {
    const { x, value } = findMinimum((at) => at * Math.log(at), [0.01, 2]);
    expect(x).toBeCloseTo(1 / Math.E, 7);
    expect(value).toBeCloseTo(-1 / Math.E, 14);
  });

  it('finds the minimum of the gamma-like curve e^x/x² at 2', () => {
    expect(findMinimum((x) => Math.exp(x) / x ** 2, [0.1, 30]).x).toBeCloseTo(2, 6);
  });

  it('ends at the end towards which the function falls', () => {
    expect(findMinimum((x) => x, [1, 3]).x).toBeCloseTo(1, 6);
    expect(findMinimum((x) => -x, [1, 3]).x).toBeCloseTo(3, 6);
  });

  it('copes with a kink', () => expect(findMinimum((x) => Math.abs(x - 0.3), [-1, 1]).x).toBeCloseTo(0.3, 7));

  it('finds the same from a place to start from, wherever it lies, and sooner from a good one', () => {
    let asked = 0;
    const f = (x: number) => {
      asked++;
      return Math.exp(x) / x ** 2;
    };
    findMinimum(f, [1, 4], { tolerance: 1e-6 });
    const without = asked;
    asked = 0;
    expect(findMinimum(f, [1, 4], { tolerance: 1e-6, start: 1.9 }).x).toBeCloseTo(2, 5);
    expect(asked).toBeLessThan(without);
    for (const start of [1, 1.001, 3.9, 4])
      expect(findMinimum(f, [1, 4], { tolerance: 1e-6, start }).x).toBeCloseTo(2, 5);
    expect(findMinimum((x) => Math.abs(x - 0.3), [-1, 1], { start: 0 }).x).toBeCloseTo(0.3, 7);
  });

  it('refuses an interval without length', () =>
    expect(() => findMinimum((x) => x, [1, 1])).toThrow(RangeError));

  it('stops at the most steps allowed', () => {
    const { x } = findMinimum((at) => (at - 0.123) ** 2, [0, 1], { maximumIterations: 1 });
    expect(Math.abs(x - 0.123)).toBeGreaterThan(1e-3);
  });
});
