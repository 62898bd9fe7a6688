import { quantileOfSorted } from './quantile';

/** Below this many values sorting by insertion is faster than parting them [-]. */
const FEW = 12;

/**
 * Median of the first values of an array, by selection: linear in their number, without a copy, for loops over many days.
 * The same figure, to the last digit, as `median`.
 *
 * @param values sample [any unit], its first `count` in any order; they are rearranged
 * @param count  how many of them are the sample [-], 0 to the array's length
 * @returns [unit of values]; NaN for an empty sample
 * @range any sample; NaN counts as greater than any number, and beside the middle the median is NaN
 * @source Hoare, Algorithm 65: FIND, Commun. ACM 4 (1961) 321-322; Hyndman & Fan, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/median-in-place.test.ts
 */
export function medianInPlace(values: Float64Array, count: number): number {
  for (let i = 0; i < count; i++) {
    // No comparison with NaN is true, so that nothing below would find it a place.
    if (Number.isNaN(values[i]!)) return quantileOfSorted(values.subarray(0, count).sort(), 0.5);
  }
  if (count === 0) return Number.NaN;
  const below = (count - 1) >> 1;
  part(values, count, below);
  const low = values[below]!;
  let high = low;
  if (below + 1 < count) {
    high = values[below + 1]!;
    for (let i = below + 2; i < count; i++) if (values[i]! < high) high = values[i]!;
  }
  return low + ((count - 1) * 0.5 - below) * (high - low);
}

/** Puts the value of a rank in its place, nothing greater before it and nothing smaller after it. */
function part(values: Float64Array, count: number, rank: number): void {
  let left = 0;
  let right = count - 1;
  while (right - left >= FEW) {
    const pivot = middleOfThree(values[left]!, values[(left + right) >> 1]!, values[right]!);
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const value = values[i]!;
      values[i++] = values[j]!;
      values[j--] = value;
    }
    if (rank <= j) right = j;
    else if (rank >= i) left = i;
    else return;
  }
  sortByInsertion(values, left, right);
}

function middleOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

function sortByInsertion(values: Float64Array, left: number, right: number): void {
  for (let i = left + 1; i <= right; i++) {
    const value = values[i]!;
    let j = i - 1;
    while (j >= left && values[j]! > value) {
      values[j + 1] = values[j]!;
      j--;
    }
    values[j + 1] = value;
  }
}
