import { describe, expect, it } from 'vitest';
import { normalCdf, normalDensity, normalQuantile, normalTwoSided } from '@/lib/core/stats/normal';

/** Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, table 26.1: Φ(x) to 15 decimals. */
const PRINTED: [number, number][] = [
  [0, 0.5],
  [0.5, 0.691462461274013],
  [1, 0.841344746068543],
  [1.5, 0.933192798731142],
  [2, 0.977249868051821],
  [3, 0.99865010196837],
  [4, 0.999968328758167],
];

/** Wichura, Algorithm AS 241, Appl. Stat. 37 (1988) 477-484: check values of PPND16. */
const QUANTILES: [number, number][] = [
  [0.25, -0.6744897501960817],
  [0.001, -3.090232306167814],
  [1e-20, -9.262340089798409],
];

describe('standard normal distribution', () => {
  it('equals the printed table to its 15 decimals, on both sides', () => {
    for (const [x, probability] of PRINTED) {
      expect(Math.abs(normalCdf(x) - probability)).toBeLessThan(1.5e-15);
      expect(Math.abs(normalCdf(-x) - (1 - probability))).toBeLessThan(1.5e-15);
    }
  });

  it('keeps relative accuracy in the tail: Φ(−10) = 7.619853024160527e-24', () => {
    expect(normalCdf(-10) / 7.619853024160527e-24).toBeCloseTo(1, 8);
    expect(normalCdf(-40)).toBe(0);
    expect(normalCdf(40)).toBe(1);
    expect(normalTwoSided(0)).toBe(1);
  });

  it('quantiles equal the printed check values', () => {
    for (const [probability, x] of QUANTILES) expect(normalQuantile(probability) / x).toBeCloseTo(1, 9);
  });

  it('quantile is the inverse of the distribution function', () => {
    for (let x = -6; x <= 5; x += 0.37) expect(normalQuantile(normalCdf(x))).toBeCloseTo(x, 8);
  });

  it('quantiles of 0, ½ and 1 are −∞, 0 and ∞; none outside', () => {
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(0.5)).toBeCloseTo(0, 15);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(1.5)).toBeNaN();
  });

  it('density at 0 is 1/√(2π)', () => expect(normalDensity(0)).toBeCloseTo(0.3989422804014327, 15));
});
