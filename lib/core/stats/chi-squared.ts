import { normalTwoSided } from './normal';

/**
 * Survival function of χ² with one degree of freedom: P(χ² ≥ x) = erfc(√(x/2)), the two-sided tail of a standard normal.
 *
 * @param statistic χ² [-], ≥ 0
 * @returns probability [-], 0 to 1; NaN for a negative statistic
 * @range any; relative accuracy kept in the tail
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.6 and table 1.3.6.7.4
 * @check tests/core/stats/chi-squared.test.ts
 */
export function chiSquared1Survival(statistic: number): number {
  return statistic >= 0 ? normalTwoSided(Math.sqrt(statistic)) : Number.NaN;
}
