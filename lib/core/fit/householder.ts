/** Least-squares solution in triangular form: R (upper, by rows) and the rotated right-hand side. */
export type Triangular = {
  size: number;
  /** R[i·size + j], j ≥ i. */
  r: Float64Array;
  /** First `size` elements of Qᵀy. */
  rotated: Float64Array;
  /** What no choice of parameters removes. */
  residualSumOfSquares: number;
};

/**
 * Householder QR of a matrix given by its columns, applied to a right-hand side at once.
 *
 * @param columns p arrays of n values; overwritten
 * @param y n values; overwritten
 * @returns R, the first p elements of Qᵀy and the residual sum of squares
 * @range n ≥ p ≥ 0
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, algorithms 5.1.1 and 5.2.1
 * @check tests/published/nist-strd.test.ts
 */
export function triangularise(columns: Float64Array[], y: Float64Array): Triangular {
  const size = columns.length;
  const n = y.length;
  if (n < size) throw new RangeError('fewer rows than columns');
  const r = new Float64Array(size * size);
  for (let k = 0; k < size; k++) {
    const pivot = columns[k]!;
    const length = Math.sqrt(dot(pivot, pivot, k));
    const alpha = pivot[k]! > 0 ? -length : length;
    r[k * size + k] = alpha;
    if (length === 0) {
      for (let j = k + 1; j < size; j++) r[k * size + j] = columns[j]![k]!;
      continue;
    }
    pivot[k]! -= alpha;
    const half = -alpha * pivot[k]!;
    for (let j = k + 1; j < size; j++) {
      reflect(pivot, columns[j]!, k, half);
      r[k * size + j] = columns[j]![k]!;
    }
    reflect(pivot, y, k, half);
  }
  return { size, r, rotated: y.slice(0, size), residualSumOfSquares: dot(y, y, size) };
}

/** x − v·(vᵀx)/half from row k on, in place; half = vᵀv/2. */
function reflect(v: Float64Array, x: Float64Array, k: number, half: number): void {
  const factor = dot(v, x, k) / half;
  for (let i = k; i < x.length; i++) x[i]! -= factor * v[i]!;
}

function dot(a: Float64Array, b: Float64Array, from: number): number {
  let sum = 0;
  for (let i = from; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/**
 * Parameters from the triangular form by back substitution.
 *
 * @param triangular result of `triangularise`
 * @returns p parameters; NaN or Infinity where a column depends on the others
 * @range full rank
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, algorithm 3.1.2
 * @check tests/published/nist-strd.test.ts
 */
export function solveTriangular({ size, r, rotated }: Triangular): Float64Array {
  const solution = new Float64Array(size);
  for (let i = size - 1; i >= 0; i--) {
    let rest = rotated[i]!;
    for (let j = i + 1; j < size; j++) rest -= r[i * size + j]! * solution[j]!;
    solution[i] = rest / r[i * size + i]!;
  }
  return solution;
}

/**
 * (RᵀR)⁻¹, the covariance of the parameters for residuals of unit variance.
 *
 * @param triangular result of `triangularise`
 * @returns p × p symmetric matrix
 * @range full rank
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, sect. 5.3.8
 * @check tests/published/nist-strd.test.ts
 */
export function unitCovariance({ size, r }: Triangular): number[][] {
  const inverse: Float64Array[] = [];
  for (let k = 0; k < size; k++) {
    const unit = new Float64Array(size);
    unit[k] = 1;
    inverse.push(solveTriangular({ size, r, rotated: unit, residualSumOfSquares: 0 }));
  }
  const entry = (i: number, j: number) => inverse.reduce((sum, column) => sum + column[i]! * column[j]!, 0);
  return Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_, j) => entry(i, j)));
}
