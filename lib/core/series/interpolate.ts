/**
 * Value at a place on the straight lines between given points.
 *
 * @param xs ascending, length n ≥ 1 [any unit]
 * @param ys length n [any unit]
 * @param x  not before the first [unit of xs]
 * @returns [unit of ys]; the last value beyond the last point
 * @range  any
 * @source linear interpolation
 * @check  tests/core/series/interpolate.test.ts
 */
export function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  const i = Math.max(
    0,
    xs.findLastIndex((from) => from <= x),
  );
  if (i === xs.length - 1) return ys[i]!;
  return ys[i]! + ((ys[i + 1]! - ys[i]!) * (x - xs[i]!)) / (xs[i + 1]! - xs[i]!);
}
