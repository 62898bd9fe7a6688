import { selectInPlace } from './select-in-place';

/**
 * Median of the first values of an array, by selection: linear in their number, without a copy, for loops over many days.
 * The same figure, to the last digit, as `median`.
 *
 * @param values sample [any unit], its first `count` in any order; they are rearranged
 * @param count  how many of them are the sample [-], 0 to the array's length
 * @returns [unit of values]; NaN for an empty sample
 * @range any sample; NaN counts as greater than any number, and beside the middle the median is NaN
 * @source Hyndman & Fan, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/median-in-place.test.ts
 */
export function medianInPlace(values: Float64Array, count: number): number {
  if (count === 0) return Number.NaN;
  const below = (count - 1) >> 1;
  selectInPlace(values, count, below);
  const low = values[below]!;
  const high = values[Math.min(below + 1, count - 1)]!;
  return low + ((count - 1) * 0.5 - below) * (high - low);
}
