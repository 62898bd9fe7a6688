import { mean } from './spread';

/**
 * Lag-1 autocorrelation r = Σ d(i)·d(i+1) / Σ d(i)², d the deviation from the mean.
 *
 * @param values equally spaced series [any unit], in order of time
 * @returns [-], −1 to 1; 0 for a constant series or fewer than two values
 * @range any finite series
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12; StRD univariate data sets
 * @check tests/published/trend-statistics.test.ts
 */
export function lagOneAutocorrelation(values: ArrayLike<number>): number {
  if (values.length < 2) return 0;
  const centre = mean(values);
  let products = 0;
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    const deviation = values[i]! - centre;
    squares += deviation * deviation;
    if (i > 0) products += deviation * (values[i - 1]! - centre);
  }
  return squares > 0 ? products / squares : 0;
}

/**
 * Number of independent values worth as much as n values of an AR(1) series: n·(1 − r)/(1 + r).
 *
 * @param count number of values [-], ≥ 0
 * @param autocorrelation lag-1 autocorrelation [-], −1 < r < 1
 * @returns [-], above n where r < 0
 * @range |r| < 1
 * @source Bayley & Hammersley, The "effective" number of independent observations, Suppl. J. R. Stat. Soc. 8 (1946) 184-197
 * @check tests/published/trend-statistics.test.ts
 */
export function effectiveCount(count: number, autocorrelation: number): number {
  return (count * (1 - autocorrelation)) / (1 + autocorrelation);
}
