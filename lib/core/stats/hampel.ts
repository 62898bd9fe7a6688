import { quantileOfSorted } from './quantile';
import { sortSmall } from './select-in-place';
import { NORMAL_CONSISTENCY } from './spread';

/** Pearson 2002: three robust standard deviations. */
export const HAMPEL_THRESHOLD = 3;

/**
 * Hampel identifier: a value is a spike when it lies more than `threshold` robust standard deviations
 * (1.4826·MAD) from the median of its window of 2k + 1 values; windows are cut short at the ends. NaN values are
 * skipped and never flagged.
 *
 * @param values series [any unit], in order of time
 * @param halfWidth k [-], ≥ 1
 * @param options threshold [-]; scaleFloor [unit of values]: least scale, e.g. the sensor's resolution (frozen data
 *   have MAD = 0, so that without a floor their smallest blip is a spike)
 * @returns 1 where the value is a spike, else 0; length of values
 * @range any
 * @source Pearson, Outliers in process modeling and identification, IEEE Trans. Control Syst. Technol. 10 (2002) 55-63
 * @check tests/published/trend-statistics.test.ts
 */
export function hampelSpikes(
  values: ArrayLike<number>,
  halfWidth: number,
  options: { threshold?: number; scaleFloor?: number } = {},
): Uint8Array {
  if (!(Number.isInteger(halfWidth) && halfWidth >= 1))
    throw new RangeError('halfWidth must be an integer ≥ 1');
  const threshold = options.threshold ?? HAMPEL_THRESHOLD;
  const floor = options.scaleFloor ?? 0;
  const spikes = new Uint8Array(values.length);
  const window = new Float64Array(2 * halfWidth + 1);
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isNaN(value)) continue;
    const sorted = sortSmall(fillWindow(window, values, i));
    const centre = quantileOfSorted(sorted, 0.5);
    // Whatever the scale: most values lie within the floor, and need no second sort.
    if (!(Math.abs(value - centre) > threshold * floor)) continue;
    for (let j = 0; j < sorted.length; j++) sorted[j] = Math.abs(sorted[j]! - centre);
    const scale = NORMAL_CONSISTENCY * quantileOfSorted(sortSmall(sorted), 0.5);
    if (Math.abs(value - centre) > threshold * Math.max(scale, floor)) spikes[i] = 1;
  }
  return spikes;
}

/** The numbers around index i, as the filled front part of `window`. */
function fillWindow(window: Float64Array, values: ArrayLike<number>, i: number): Float64Array {
  const halfWidth = (window.length - 1) / 2;
  const last = Math.min(values.length - 1, i + halfWidth);
  let count = 0;
  for (let j = Math.max(0, i - halfWidth); j <= last; j++) {
    const value = values[j]!;
    if (!Number.isNaN(value)) window[count++] = value;
  }
  // Most windows are full: a view of each would take longer than to sort it.
  return count === window.length ? window : window.subarray(0, count);
}
