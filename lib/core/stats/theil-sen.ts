import { tieGroups } from './mann-kendall';
import { normalQuantile } from './normal';
import { median } from './quantile';

/** Median slope of all pairs with its confidence interval. */
export type TheilSen = { slope: number; intercept: number; low: number; high: number };

/** Two-sided confidence of the slope's interval unless asked otherwise. */
export const DEFAULT_CONFIDENCE = 0.95;

/**
 * Theil–Sen line: the median of the slopes of all pairs, intercept = median(y) − slope·median(t), and Sen's
 * distribution-free interval of the slope (normal approximation of Kendall's S, ties corrected).
 *
 * @param t [any unit], at least two unlike values for an answer
 * @param y [any unit], length of t
 * @param confidence two-sided confidence [-], 0 to 1
 * @returns slope, intercept and interval; NaN without two unlike t
 * @range any finite data; cost grows with the square of the length
 * @source Sen, Estimates of the regression coefficient based on Kendall's tau, J. Am. Stat. Assoc. 63 (1968) 1379-1389
 * @check tests/published/trend-statistics.test.ts
 */
export function theilSen(
  t: ArrayLike<number>,
  y: ArrayLike<number>,
  confidence: number = DEFAULT_CONFIDENCE,
): TheilSen {
  if (t.length !== y.length) throw new RangeError('t and y must have the same length');
  const slopes = pairSlopes(t, y).sort();
  const slope = median(slopes);
  const sigma = Math.sqrt(slopeRankVariance(t, y));
  const reach = -normalQuantile((1 - confidence) / 2) * sigma;
  // Sen 1968 eq. 2.6: the ranks (N ± reach)/2, counted from 1, rounded to whole ranks outwards.
  const lowRank = Math.max(0, Math.round((slopes.length - reach) / 2) - 1);
  const highRank = Math.min(slopes.length - 1, Math.round((slopes.length + reach) / 2));
  return {
    slope,
    intercept: median(y) - slope * median(t),
    low: slopes[lowRank] ?? Number.NaN,
    high: slopes[highRank] ?? Number.NaN,
  };
}

function pairSlopes(t: ArrayLike<number>, y: ArrayLike<number>): Float64Array {
  const slopes = new Float64Array((t.length * (t.length - 1)) / 2);
  let count = 0;
  for (let i = 1; i < t.length; i++) {
    for (let j = 0; j < i; j++) {
      const run = t[i]! - t[j]!;
      if (run !== 0) slopes[count++] = (y[i]! - y[j]!) / run;
    }
  }
  return slopes.slice(0, count);
}

/** Variance of Kendall's S between t and y, reduced for ties in either. */
function slopeRankVariance(t: ArrayLike<number>, y: ArrayLike<number>): number {
  const term = (k: number) => k * (k - 1) * (2 * k + 5);
  const ties = [...tieGroups(t), ...tieGroups(y)];
  const variance = ties.reduce((rest, k) => rest - term(k), term(t.length)) / 18;
  return Math.max(0, variance);
}
