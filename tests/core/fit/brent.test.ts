import { describe, expect, it } from 'vitest';
import { findRoot } from '@/lib/core/fit/brent';

describe('bracketed root', () => {
  it('finds the real root of x³ − 2x − 5, 2.0945514815423265 (Wallis 1685)', () => {
    expect(findRoot((x) => x ** 3 - 2 * x - 5, 2, 3)).toBeCloseTo(2.0945514815423265, 12);
    expect(findRoot((x) => x ** 3 - 2 * x - 5, 3, 2)).toBeCloseTo(2.0945514815423265, 12);
  });

  it('finds the fixed point of the cosine, 0.7390851332151607', () => {
    expect(findRoot((x) => Math.cos(x) - x, 0, 1)).toBeCloseTo(0.7390851332151607, 12);
  });

  it('takes few steps on a smooth function, and no more than a bisection’s square on a flat one', () => {
    let calls = 0;
    findRoot(
      (x) => {
        calls++;
        return Math.exp(x) - 2;
      },
      0,
      5,
    );
    expect(calls).toBeLessThan(16);
    expect(Math.abs(findRoot((x) => (x - 1) ** 9, 0, 3, { maximumIterations: 300 }) - 1)).toBeLessThan(1e-3);
  });

  it('a root at an end is found at once', () => {
    expect(findRoot((x) => x, 0, 1)).toBe(0);
    expect(findRoot((x) => x - 1, 0, 1)).toBe(1);
  });

  it('ends that do not bracket a root, or a function without value, give NaN', () => {
    expect(findRoot((x) => x * x + 1, -1, 1)).toBeNaN();
    expect(findRoot((x) => (x === 0 || x === 1 ? x - 0.5 : Number.NaN), 0, 1)).toBeNaN();
  });

  it('stops at the tolerance asked for, and at the most steps allowed', () => {
    const root = findRoot((x) => x * x - 2, 0, 2, { tolerance: 1e-3 });
    expect(Math.abs(root - Math.SQRT2)).toBeLessThan(1e-3);
    expect(Math.abs(findRoot((x) => x * x - 2, 0, 2, { maximumIterations: 1 }) - Math.SQRT2)).toBeGreaterThan(
      1e-3,
    );
  });
});
