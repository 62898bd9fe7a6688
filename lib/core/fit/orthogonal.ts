/** A column of which no more than this share is left depends on those before it: the rest is rounding [-]. */
const LEAST_SHARE = 1e-10;

/**
 * Columns of unit length that span what the given ones do, each with those before it taken out (modified Gram–Schmidt).
 *
 * @param columns p arrays of n values; overwritten
 * @returns at most p columns: those that depend on others are left out; orthogonal up to rounding times the condition
 * @range any
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, sect. 5.2.8
 * @check tests/core/fit/orthogonal.test.ts
 */
export function orthogonalised(columns: readonly Float64Array[]): Float64Array[] {
  const units: Float64Array[] = [];
  for (const column of columns) {
    const whole = lengthOf(column);
    const left = lengthOf(takeOut(units, column));
    if (!(left > LEAST_SHARE * whole)) continue;
    for (let i = 0; i < column.length; i++) column[i]! /= left;
    units.push(column);
  }
  return units;
}

/**
 * What orthogonal columns of unit length leave of a column.
 *
 * @param units arrays of n values
 * @param column n values; overwritten
 * @returns column
 * @range any
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, sect. 5.2.8
 * @check tests/core/fit/orthogonal.test.ts
 */
export function takeOut(units: readonly Float64Array[], column: Float64Array): Float64Array {
  for (const unit of units) {
    let share = 0;
    for (let i = 0; i < unit.length; i++) share += unit[i]! * column[i]!;
    for (let i = 0; i < unit.length; i++) column[i]! -= share * unit[i]!;
  }
  return column;
}

function lengthOf(column: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < column.length; i++) sum += column[i]! * column[i]!;
  return Math.sqrt(sum);
}
