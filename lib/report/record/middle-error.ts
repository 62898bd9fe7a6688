/** Median of errors where a projection without a day is further out than any with one; null where it has no finite value. */
export function middleError(errors: readonly (number | null)[]): number | null {
  const sorted = errors.map((error) => error ?? Number.POSITIVE_INFINITY).sort((a, b) => a - b);
  const low = sorted[(sorted.length - 1) >> 1];
  const high = sorted[sorted.length >> 1];
  if (low === undefined || high === undefined) return null;
  return Number.isFinite(high) ? (low + high) / 2 : null;
}
