/** Places from one to the next of those that are worked out in any case [-]. */
const STRIDE = 8;

/** Values at some places, one column for each quantity. */
export type Along = { quantities: number; at: (index: number) => ArrayLike<number>; tolerance: number };

/**
 * Smooth quantities at every place of a list, without working each of them out: where the middle of a stretch lies on the straight
 * line between its ends, both halves are drawn straight; elsewhere each half is looked at by itself. A curve that bends evenly is
 * then off by a quarter of what its middle may be.
 *
 * @param xs    places, ascending, length n [any unit]
 * @param along how many quantities; their values at a place, by its index (may be overwritten by the next one asked for); how far
 *   a middle may be off the line, as a share of the greatest of the three values [-]
 * @returns one column of n values for each quantity; a quantity that is NaN bends nothing
 * @range  n ≥ 0; bends that lie closer together than eight places may be missed
 * @source adaptive trapezoidal rule: Press et al., Numerical Recipes, 3rd ed. 2007, sect. 4.2 and 4.7 (from memory)
 * @check  tests/core/series/straight-lines.test.ts
 */
export function alongStraightLines(
  xs: ArrayLike<number>,
  { quantities, at, tolerance }: Along,
): Float64Array[] {
  const columns = Array.from({ length: quantities }, () => new Float64Array(xs.length));
  const workOut = (index: number) => {
    const values = at(index);
    for (let q = 0; q < quantities; q++) columns[q]![index] = values[q]!;
  };
  const fill = (from: number, to: number): void => {
    if (to - from < 2) return;
    const middle = (from + to) >> 1;
    workOut(middle);
    const span = { xs, from, middle, to };
    const halves = [
      [from, middle],
      [middle, to],
    ] as const;
    if (columns.every((column) => isStraight(column, span, tolerance)))
      for (const column of columns) for (const half of halves) drawStraight(column, xs, half);
    else for (const half of halves) fill(...half);
  };
  if (xs.length > 0) workOut(0);
  for (let from = 0; from < xs.length - 1; from += STRIDE) {
    const to = Math.min(from + STRIDE, xs.length - 1);
    workOut(to);
    fill(from, to);
  }
  return columns;
}

type Span = { xs: ArrayLike<number>; from: number; middle: number; to: number };

function isStraight(column: Float64Array, { xs, from, middle, to }: Span, tolerance: number): boolean {
  const [first, value, last] = [column[from]!, column[middle]!, column[to]!];
  const onLine = first + ((last - first) * (xs[middle]! - xs[from]!)) / (xs[to]! - xs[from]!);
  const most = tolerance * Math.max(Math.abs(first), Math.abs(value), Math.abs(last));
  return !(Math.abs(value - onLine) > most);
}

function drawStraight(
  column: Float64Array,
  xs: ArrayLike<number>,
  [from, to]: readonly [number, number],
): void {
  const slope = (column[to]! - column[from]!) / (xs[to]! - xs[from]!);
  for (let i = from + 1; i < to; i++) column[i] = column[from]! + slope * (xs[i]! - xs[from]!);
}
