import { normalTwoSided } from './normal';

/**
 * Survival function of χ² with one degree of freedom: P(χ² ≥ x) = erfc(√(x/2)), the two-sided tail of a standard normal.
 *
 * @param statistic χ² [-], ≥ 0
 * @returns probability [-], 0 to 1; NaN for a negative statistic
 * @range any; relative accuracy kept in the tail
 * @source Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, 26.4.18 and Table 26.8
 * @check tests/core/stats/chi-squared.test.ts
 */
export function chiSquared1Survival(statistic: number): number {
  return statistic >= 0 ? normalTwoSided(Math.sqrt(statistic)) : Number.NaN;
}
