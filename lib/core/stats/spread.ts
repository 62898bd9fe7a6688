import { medianInPlace } from './median-in-place';
import { median } from './quantile';

/** Makes the median absolute deviation estimate the standard deviation of normal data: 1/Φ⁻¹(3/4), as rounded in print. */
export const NORMAL_CONSISTENCY = 1.4826;

/**
 * Median absolute deviation from the median, unscaled. Times NORMAL_CONSISTENCY it estimates a standard deviation.
 *
 * @param values sample [any unit], any order
 * @returns [unit of values], ≥ 0; NaN for an empty sample
 * @range any finite sample
 * @source Hampel, The influence curve and its role in robust estimation, J. Am. Stat. Assoc. 69 (1974) 383-393
 * @check tests/published/trend-statistics.test.ts
 */
export function medianAbsoluteDeviation(values: ArrayLike<number>): number {
  return medianDistance(values, median(values));
}

/**
 * Median distance of the values from a centre.
 *
 * @param values sample [any unit], any order
 * @param centre same unit
 * @returns [unit of values], ≥ 0; NaN for an empty sample
 * @range any finite sample
 * @source Hampel, The influence curve and its role in robust estimation, J. Am. Stat. Assoc. 69 (1974) 383-393
 * @check tests/published/trend-statistics.test.ts
 */
export function medianDistance(values: ArrayLike<number>, centre: number): number {
  const distances = new Float64Array(values.length);
  for (let i = 0; i < distances.length; i++) distances[i] = Math.abs(values[i]! - centre);
  return medianInPlace(distances, distances.length);
}

/**
 * Arithmetic mean, with a second pass that removes the rounding of the first.
 *
 * @param values sample [any unit]
 * @returns [unit of values]; NaN for an empty sample
 * @range any finite sample
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.1
 * @check tests/published/trend-statistics.test.ts
 */
export function mean(values: ArrayLike<number>): number {
  const count = values.length;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += values[i]!;
  const first = sum / count;
  let rest = 0;
  for (let i = 0; i < count; i++) rest += values[i]! - first;
  return first + rest / count;
}

/**
 * Sample standard deviation with divisor n − 1.
 *
 * @param values sample [any unit]
 * @returns [unit of values], ≥ 0; NaN for fewer than two values
 * @range any finite sample
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6
 * @check tests/published/trend-statistics.test.ts
 */
export function standardDeviation(values: ArrayLike<number>): number {
  if (values.length < 2) return Number.NaN;
  const centre = mean(values);
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += (values[i]! - centre) ** 2;
  return Math.sqrt(sum / (values.length - 1));
}
