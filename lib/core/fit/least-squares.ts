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
  const scales = columns.map((column) => lengthOf(column, y.length, weights));
  const scaled = columns.map((column, j) => weighted(column, weights, scales[j]!));
  const target = weighted(y, weights, 1);
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

function lengthOf(column: ArrayLike<number>, count: number, weights?: ArrayLike<number>): number {
  if (column.length !== count) throw new RangeError('columns and y must have the same length');
  let sum = 0;
  for (let i = 0; i < count; i++) sum += (weights === undefined ? 1 : weights[i]!) * column[i]! * column[i]!;
  return Math.sqrt(sum) || 1;
}

/** Values times the square roots of their weights, over a scale. */
function weighted(
  values: ArrayLike<number>,
  weights: ArrayLike<number> | undefined,
  scale: number,
): Float64Array {
  const out = new Float64Array(values.length);
  for (let i = 0; i < out.length; i++) {
    const factor = weights === undefined ? 1 : Math.sqrt(weights[i]!);
    out[i] = (factor * values[i]!) / scale;
  }
  return out;
}
