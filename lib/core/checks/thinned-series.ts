/** Values of one sensor no closer together than a period: where readings come faster, the means of each period. */
export type ThinnedSeries = {
  /** Number of values, m. */
  count: number;
  /** Instant of the last reading [ms] and mean of the readings [any unit] of each value: the first m hold. */
  times: Float64Array;
  values: Float64Array;
  /** Readings behind value k: `rows[starts[k]]` to before `rows[starts[k + 1]]`. */
  starts: Int32Array;
  rows: Int32Array;
};

/**
 * Room for a series, to be used for one sensor after another.
 *
 * @param length most readings it can take [-]
 * @returns an empty series
 * @range  0 and more
 * @source none: room only
 * @check  tests/core/checks/unsteady.test.ts
 */
export function makeThinnedSeries(length: number): ThinnedSeries {
  return {
    count: 0,
    times: new Float64Array(length),
    values: new Float64Array(length),
    starts: new Int32Array(length + 1),
    rows: new Int32Array(length),
  };
}

/**
 * Averages the measured values of one sensor over periods of the clock.
 *
 * @param series room for the result, written over
 * @param input  instants [ms] and one sensor's values of length n, NaN = not measured; indices of the readings to use
 * @param period length of a period [ms]
 * @returns nothing: one value per period with readings is in `series`, in order of time
 * @range  any; readings further apart than the period stand each for itself
 * @source none: averaging only
 * @check  tests/core/checks/unsteady.test.ts
 */
export function thin(
  series: ThinnedSeries,
  input: { time: Float64Array; column: Float64Array; chosen: Int32Array },
  period: number,
): void {
  const { time, column, chosen } = input;
  const { times, values, starts, rows } = series;
  let count = 0;
  let used = 0;
  let end = Number.NEGATIVE_INFINITY;
  for (let j = 0; j < chosen.length; j++) {
    const row = chosen[j]!;
    const value = column[row]!;
    if (Number.isNaN(value)) continue;
    const at = time[row]!;
    if (at >= end) {
      end = (Math.floor(at / period) + 1) * period;
      starts[count] = used;
      values[count++] = value;
    } else {
      values[count - 1]! += (value - values[count - 1]!) / (used - starts[count - 1]! + 1);
    }
    times[count - 1] = at;
    rows[used++] = row;
  }
  starts[count] = used;
  series.count = count;
}
