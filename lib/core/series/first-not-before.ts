/**
 * Index of the first instant, or day, at or after one.
 *
 * @param time    [ms or days], ascending, length n
 * @param instant in the unit of `time`
 * @returns index, n where all are before
 * @range  any length
 * @source binary search
 * @check  tests/core/series/first-not-before.test.ts
 */
export function firstNotBefore(time: Float64Array | Int32Array, instant: number): number {
  let low = 0;
  let high = time.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (time[middle]! < instant) low = middle + 1;
    else high = middle;
  }
  return low;
}
