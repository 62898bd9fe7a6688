import { selectInPlace } from './select-in-place';

/**
 * Sample quantile by linear interpolation of the order statistics (definition 7, "R-7").
 *
 * @param values sample [any unit], any order, length ≥ 1 for an answer; not changed
 * @param probability share below [-], 0 to 1
 * @returns [unit of values]; NaN for an empty sample
 * @range any finite sample
 * @source Hyndman & Fan, Sample Quantiles in Statistical Packages, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/quantile.test.ts
 */
export function quantile(values: ArrayLike<number>, probability: number): number {
  const own = new Float64Array(values);
  const wanted = Math.floor((own.length - 1) * probability);
  // A probability that is none is refused below.
  if (own.length > 0 && wanted >= 0 && wanted < own.length) selectInPlace(own, own.length, wanted);
  return quantileOfSorted(own, probability);
}

/**
 * Quantile R-7 of a sample that is already in ascending order.
 *
 * @param sorted ascending sample [any unit]
 * @param probability share below [-], 0 to 1
 * @returns [unit of sorted]; NaN for an empty sample
 * @range any finite sample
 * @source Hyndman & Fan, Sample Quantiles in Statistical Packages, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/quantile.test.ts
 */
export function quantileOfSorted(sorted: ArrayLike<number>, probability: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError('probability must lie in 0 to 1');
  if (sorted.length === 0) return Number.NaN;
  const position = (sorted.length - 1) * probability;
  const below = Math.floor(position);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
  return low + (position - below) * (high - low);
}

/**
 * Median: the middle value, or the mean of the two middle values.
 *
 * @param values sample [any unit], any order; not changed
 * @returns [unit of values]; NaN for an empty sample
 * @range any finite sample
 * @source Hyndman & Fan, Sample Quantiles in Statistical Packages, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/published/trend-statistics.test.ts
 */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}
