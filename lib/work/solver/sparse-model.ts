import type { Programme } from '../../core/plan/solve-programme';

/** A programme in the arrays that the solver takes, column by column. */
export type SparseModel = {
  isInteger: boolean;
  model: {
    numCols: number;
    numRows: number;
    colCost: Float64Array;
    colLower: Float64Array;
    colUpper: Float64Array;
    rowLower: Float64Array;
    rowUpper: Float64Array;
    matrix: {
      format: 'csc';
      numRows: number;
      numCols: number;
      starts: Int32Array;
      indices: Int32Array;
      values: Float64Array;
    };
    integrality?: Int32Array;
  };
};

/** The arrays of a programme; entries of a column are given in any order and at most once for each row. */
export function sparseModel({ columns, rows }: Programme): SparseModel {
  const starts = new Int32Array(columns.length + 1);
  columns.forEach((column, j) => {
    starts[j + 1] = starts[j]! + column.entries.length;
  });
  const indices = new Int32Array(starts[columns.length]!);
  const values = new Float64Array(indices.length);
  columns.forEach((column, j) => {
    column.entries.forEach(({ row, value }, at) => {
      indices[starts[j]! + at] = row;
      values[starts[j]! + at] = value;
    });
  });
  const isInteger = columns.some((column) => column.isInteger);
  const size = { numCols: columns.length, numRows: rows.length };
  return {
    isInteger,
    model: {
      ...size,
      colCost: Float64Array.from(columns, ({ cost }) => cost),
      colLower: new Float64Array(columns.length),
      colUpper: Float64Array.from(columns, ({ upper }) => upper),
      rowLower: Float64Array.from(rows, ({ lower }) => lower),
      rowUpper: Float64Array.from(rows, ({ upper }) => upper),
      matrix: {
        format: 'csc',
        ...size,
        starts,
        indices,
        values,
      },
      ...(isInteger && { integrality: Int32Array.from(columns, (column) => Number(column.isInteger)) }),
    },
  };
}
