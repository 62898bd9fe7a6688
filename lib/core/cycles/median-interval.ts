/** Least confidence of the interval [-]. */
const LEAST_CONFIDENCE = 0.95;

/** Interval that holds the median of the population with at least this confidence. */
export type MedianInterval = { low: number; high: number; confidence: number };

/**
 * Distribution-free interval of a median: from the r-th smallest to the r-th largest value, the narrowest pair that holds the
 * population's median with at least 95 % confidence. The count of values below the median is binomial with probability 1/2.
 *
 * @param values sample [any unit], any order, n values
 * @returns interval [unit of values] and its confidence [-]; null for fewer than 6 values, whose full range holds it less surely
 * @range  independent values; n up to 1000
 * @source David & Nagaraja, Order Statistics, 3rd ed. 2003, sect. 7.1; Conover, Practical Nonparametric Statistics, 3rd ed. 1999,
 *   sect. 3.2
 * @check  tests/core/cycles/median-interval.test.ts
 */
export function medianInterval(values: ArrayLike<number>): MedianInterval | null {
  const sorted = Float64Array.from(values).sort();
  const n = sorted.length;
  let rank = -1;
  let confidence = 0;
  let share = 0.5 ** n;
  let below = 0;
  for (let k = 0; k < n / 2; k++) {
    below += share;
    if (1 - 2 * below < LEAST_CONFIDENCE) break;
    rank = k;
    confidence = 1 - 2 * below;
    share *= (n - k) / (k + 1);
  }
  return rank < 0 ? null : { low: sorted[rank]!, high: sorted[n - 1 - rank]!, confidence };
}
