/**
 * Pivots of a symmetric matrix by Gaussian elimination: their product is its determinant. Of the products of some columns with
 * each other, the last pivot is the sum of squares that the columns before it leave of the last one.
 *
 * @param matrix size × size values, its upper half given; overwritten
 * @param size rows [-]
 * @returns one pivot for each row
 * @range positive definite
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, sect. 4.1.2 (LDLᵀ)
 * @check tests/core/fit/step-products.test.ts
 */
export function pivotsOf(matrix: Float64Array, size: number): Float64Array {
  const pivots = new Float64Array(size);
  for (let k = 0; k < size; k++) {
    pivots[k] = matrix[k * size + k]!;
    for (let i = k + 1; i < size; i++) {
      const factor = matrix[k * size + i]! / pivots[k]!;
      for (let j = i; j < size; j++) matrix[i * size + j]! -= factor * matrix[k * size + j]!;
    }
  }
  return pivots;
}
