import { solveTriangular, triangularise, unitCovariance } from './householder';

/** Parameters with their covariance; the residual variance is estimated with n − p degrees of freedom. */
export type LeastSquares = {
  parameters: number[];
  covariance: number[][];
  standardErrors: number[];
  residualSumOfSquares: number;
  residualVariance: number;
  degreesOfFreedom: number;
};

/**
 * Linear least squares y ≈ Σ parameter·column, by Householder QR of columns scaled to unit length.
 *
 * @param columns p arrays of n values (a column of ones for an intercept)
 * @param y n values
 * @param weights n values ≥ 0, 1/variance up to a factor; left out: all 1
 * @returns parameters in the order of the columns; NaN where they are not determined
 * @range n ≥ p; keeps 8 digits on the Longley data
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, sect. 5.3
 * @check tests/published/nist-strd.test.ts
 */
export function leastSquares(
  columns: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
  weights?: ArrayLike<number>,
): LeastSquares {
  const factors = Float64Array.from(y, (_, i) => (weights === undefined ? 1 : Math.sqrt(weights[i]!)));
  const scales = columns.map((column) => lengthOf(column, factors));
  const scaled = columns.map((column, j) => factors.map((factor, i) => (factor * column[i]!) / scales[j]!));
  const target = factors.map((factor, i) => factor * y[i]!);
  const triangular = triangularise(scaled, target);
  const degreesOfFreedom = y.length - columns.length;
  const residualVariance = triangular.residualSumOfSquares / degreesOfFreedom;
  const covariance = unitCovariance(triangular).map((row, i) =>
    row.map((value, j) => (value * residualVariance) / (scales[i]! * scales[j]!)),
  );
  return {
    parameters: Array.from(solveTriangular(triangular), (value, j) => value / scales[j]!),
    covariance,
    standardErrors: covariance.map((row, i) => Math.sqrt(row[i]!)),
    residualSumOfSquares: triangular.residualSumOfSquares,
    residualVariance,
    degreesOfFreedom,
  };
}

function lengthOf(column: ArrayLike<number>, factors: Float64Array): number {
  if (column.length !== factors.length) throw new RangeError('columns and y must have the same length');
  let sum = 0;
  for (let i = 0; i < factors.length; i++) sum += (factors[i]! * column[i]!) ** 2;
  return Math.sqrt(sum) || 1;
}
