/** A straight line with standard errors; the residual variance is that of unit weight. */
export type FittedLine = {
  intercept: number;
  slope: number;
  interceptError: number;
  slopeError: number;
  /** Covariance of intercept and slope. */
  covariance: number;
  /** Weighted residual sum of squares over n − 2. */
  residualVariance: number;
};

/** A straight line through the weighted means. */
export type LineThrough = {
  intercept: number;
  slope: number;
  meanX: number;
  meanY: number;
  /** Sum of the weights, and of weight·(x − mean)². */
  sum: number;
  xx: number;
};

/**
 * Weighted least-squares straight line without its errors.
 *
 * @param x [any unit], n values
 * @param y [any unit], n values
 * @param weights [-], n values ≥ 0
 * @returns line [units of x and y] and the sums it came from; NaN where it is not determined
 * @range any finite data
 * @source Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, sect. 1.2 and 9.2
 * @check tests/published/trend-statistics.test.ts
 */
export function lineThrough(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  weights: ArrayLike<number>,
): LineThrough {
  const n = x.length;
  if (y.length !== n || weights.length !== n)
    throw new RangeError('x, y and weights must have the same length');
  let sum = 0;
  let sumX = 0;
  let sumY = 0;
  for (let i = 0; i < n; i++) {
    sum += weights[i]!;
    sumX += weights[i]! * x[i]!;
    sumY += weights[i]! * y[i]!;
  }
  const meanX = sumX / sum;
  const meanY = sumY / sum;
  let xx = 0;
  let xy = 0;
  for (let i = 0; i < n; i++) {
    xx += weights[i]! * (x[i]! - meanX) ** 2;
    xy += weights[i]! * (x[i]! - meanX) * (y[i]! - meanY);
  }
  const slope = xx > 0 ? xy / xx : Number.NaN;
  return { intercept: meanY - slope * meanX, slope, meanX, meanY, sum, xx };
}

/**
 * Weighted least-squares straight line; weights are 1/variance up to a common factor, which the residuals estimate.
 *
 * @param x [any unit], n values
 * @param y [any unit], n values
 * @param weights [-], n values ≥ 0; left out: all 1
 * @returns line with standard errors; NaN where it is not determined, errors NaN for n < 3
 * @range any finite data
 * @source Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, sect. 1.2 and 9.2
 * @check tests/published/trend-statistics.test.ts
 */
export function weightedLine(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  weights?: ArrayLike<number>,
): FittedLine {
  const n = x.length;
  const given = weights ?? new Float64Array(n).fill(1);
  const { intercept, slope, meanX, meanY, sum, xx } = lineThrough(x, y, given);
  let squares = 0;
  for (let i = 0; i < n; i++) squares += given[i]! * (y[i]! - meanY - slope * (x[i]! - meanX)) ** 2;
  const residualVariance = n > 2 ? squares / (n - 2) : Number.NaN;
  return {
    intercept,
    slope,
    interceptError: Math.sqrt(residualVariance * (1 / sum + meanX ** 2 / xx)),
    slopeError: Math.sqrt(residualVariance / xx),
    covariance: (-residualVariance * meanX) / xx,
    residualVariance,
  };
}
