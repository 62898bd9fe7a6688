import { describe, expect, it } from 'vitest';
import { chiSquared1Survival } from '@/lib/core/stats/chi-squared';

describe('χ² with one degree of freedom', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4, upper critical values for ν = 1, printed to 0.001.
  it.each([
    [2.706, 5e-4, 0.1],
    [3.841, 5e-4, 0.05],
    [5.024, 5e-4, 0.025],
    [6.635, 5e-4, 0.01],
    [10.828, 5e-4, 0.001],
  ])('exceeds %f ± %f with probability %f', (point, half, probability) => {
    expect(chiSquared1Survival(point - half)).toBeGreaterThanOrEqual(probability);
    expect(chiSquared1Survival(point + half)).toBeLessThanOrEqual(probability);
  });

  it('is certain to exceed 0, keeps its digits in the tail, and has no value for a negative statistic', () => {
    expect(chiSquared1Survival(0)).toBe(1);
    // erfc(√50), computed with the C mathematical library
    expect(chiSquared1Survival(100) / 1.523970604832105e-23).toBeCloseTo(1, 8);
    expect(chiSquared1Survival(-1)).toBeNaN();
    expect(chiSquared1Survival(Number.NaN)).toBeNaN();
  });
});
