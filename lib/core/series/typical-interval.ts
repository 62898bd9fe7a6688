/**
 * The interval at which readings usually come: the median of the differences between neighbours.
 *
 * @param time instants [ms], ascending, no duplicates
 * @returns [ms]; NaN with fewer than two readings
 * @range  any length
 * @source Median of differences, common practice; no published formula
 * @check  tests/core/series/reduce-columns.test.ts
 */
export function typicalInterval(time: Float64Array): number {
  if (time.length < 2) return Number.NaN;
  const steps = new Float64Array(time.length - 1);
  for (let i = 0; i < steps.length; i++) steps[i] = time[i + 1]! - time[i]!;
  steps.sort();
  const middle = steps.length >>> 1;
  return steps.length % 2 === 1 ? steps[middle]! : (steps[middle - 1]! + steps[middle]!) / 2;
}
