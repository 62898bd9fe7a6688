/** Places from one to the next of those that are worked out in any case [-]. */
const STRIDE = 8;

/** How far a quantity may be off: this share [-] of the greatest of its values there, or of `least` where all are smaller. */
export type Tolerance = { share: number; least: number };

/** Values at some places, one column for each quantity, and how far each may be off. */
export type Along = { at: (index: number) => ArrayLike<number>; tolerances: readonly Tolerance[] };

/**
 * Smooth quantities at every place of a list, without working each of them out: where the middle of a stretch lies on the straight
 * line between its ends, both halves are drawn straight; elsewhere each half is looked at by itself. A curve that bends evenly is
 * then off by a quarter of what its middle may be.
 *
 * @param xs    places, ascending, length n [any unit]
 * @param along values of the quantities at a place, by its index (may be overwritten by the next one asked for); how far each
 *   may be off the line in the middle of a stretch
 * @returns one column of n values for each quantity; a quantity that is NaN bends nothing
 * @range  n ≥ 0; bends that lie closer together than eight places may be missed
 * @source adaptive trapezoidal rule: Press et al., Numerical Recipes, 3rd ed. 2007, sect. 4.2 and 4.7 (from memory)
 * @check  tests/core/series/straight-lines.test.ts
 */
export function alongStraightLines(xs: ArrayLike<number>, { at, tolerances }: Along): Float64Array[] {
  const columns = tolerances.map(() => new Float64Array(xs.length));
  const workOut = (index: number) => {
    const values = at(index);
    for (let q = 0; q < columns.length; q++) columns[q]![index] = values[q]!;
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
    if (columns.every((column, q) => isStraight(column, span, tolerances[q]!)))
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

function isStraight(
  column: Float64Array,
  { xs, from, middle, to }: Span,
  { share, least }: Tolerance,
): boolean {
  const [first, value, last] = [column[from]!, column[middle]!, column[to]!];
  const onLine = first + ((last - first) * (xs[middle]! - xs[from]!)) / (xs[to]! - xs[from]!);
  const most = share * Math.max(least, Math.abs(first), Math.abs(value), Math.abs(last));
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
