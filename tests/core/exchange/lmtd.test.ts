import { describe, expect, it } from 'vitest';
import { shellCorrection } from '@/lib/core/exchange/correction';
import { counterCurrentLmtd, logMeanDifference } from '@/lib/core/exchange/lmtd';

describe('logarithmic mean difference', () => {
  it('is the common value of equal differences', () => {
    expect(logMeanDifference(10, 10)).toBe(10);
    expect(counterCurrentLmtd({ hotIn: 50, hotOut: 40, coldIn: 30, coldOut: 40 })).toBe(10);
  });

  it('goes to that value smoothly: d₁(1 − x/2 + …) for d₂ = d₁(1 − x) down to the last digit', () => {
    for (let power = 1; power <= 15; power++) {
      const other = 10 * (1 - 10 ** -power);
      const x = (10 - other) / 10;
      // Series of x/−ln(1−x): Gregory coefficients.
      const series = 1 - x / 2 - x ** 2 / 12 - x ** 3 / 24 - (19 * x ** 4) / 720 - (3 * x ** 5) / 160;
      const truncation = power === 1 ? 2e-8 : 1e-13;
      expect(Math.abs(logMeanDifference(10, other) / 10 - series)).toBeLessThan(
        power < 3 ? truncation : 1e-15,
      );
    }
  });

  it('does not care for the order of the ends', () => {
    expect(logMeanDifference(40, 55)).toBe(logMeanDifference(55, 40));
  });

  it('lies between the smaller difference and the arithmetic mean', () => {
    for (const [a, b] of [
      [1, 2],
      [0.001, 50],
      [30, 30.0001],
      [1e-9, 1e9],
    ] as const) {
      expect(logMeanDifference(a, b)).toBeGreaterThan(a);
      expect(logMeanDifference(a, b)).toBeLessThan((a + b) / 2);
    }
  });

  it('is 0 where one end has no difference and unknown where one is negative or no number', () => {
    expect(logMeanDifference(0, 10)).toBe(0);
    expect(logMeanDifference(10, 0)).toBe(0);
    expect(logMeanDifference(0, 0)).toBe(0);
    expect(logMeanDifference(-1, 10)).toBeNaN();
    expect(logMeanDifference(10, -1)).toBeNaN();
    expect(logMeanDifference(Number.NaN, 10)).toBeNaN();
  });
});

describe('correction of shells by Bowman, Mueller & Nagle', () => {
  it('is 1 without a duty or with an isothermal hot stream', () => {
    expect(shellCorrection(1, 0, 1)).toBe(1);
    expect(shellCorrection(0, 0.7, 1)).toBeCloseTo(1, 14);
    expect(shellCorrection(0, 0.7, 3)).toBeCloseTo(1, 14);
  });

  it('is continuous through R = 1', () => {
    for (const shells of [1, 2, 3]) {
      const at = shellCorrection(1, 0.5, shells);
      expect(Math.abs(shellCorrection(1 + 1e-9, 0.5, shells) - at)).toBeLessThan(1e-8);
      expect(Math.abs(shellCorrection(1 - 1e-9, 0.5, shells) - at)).toBeLessThan(1e-8);
    }
  });

  it('has no value for ratios that no temperatures give', () => {
    for (const [ratio, efficiency] of [
      [-1, 0.5],
      [1, -0.1],
      [1, 1],
      [3, 0.4],
      [Number.NaN, 0.5],
    ] as const) {
      expect(shellCorrection(ratio, efficiency, 2)).toBeNaN();
    }
  });
});
