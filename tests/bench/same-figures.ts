/** Two programs that work out the same formulas may differ by this share: rounding, widened by differences of near figures [-]. */
const TOLERANCE = 1e-9;

/**
 * Holds our columns against another program's, one behind the other in the same order.
 *
 * @throws Error naming the column and row of the first difference, a missing figure on one side alone included
 */
export function requireSame(who: string, ours: readonly Float64Array[], theirs: Float64Array): void {
  const length = ours.reduce((sum, column) => sum + column.length, 0);
  if (theirs.length !== length) throw new Error(`${who} gave ${theirs.length} figures, we ${length}`);
  let at = 0;
  ours.forEach((column, place) => {
    const scale = sizeOf(column);
    for (let row = 0; row < column.length; row++) {
      const [one, other] = [column[row]!, theirs[at++]!];
      if (Number.isNaN(one) && Number.isNaN(other)) continue;
      // A figure that is a difference is as certain as what it is a difference of: the column's usual size.
      if (!(Math.abs(one - other) <= TOLERANCE * Math.max(Math.abs(one), scale)))
        throw new Error(`${who} differs in column ${place}, row ${row}: ${other}, ours ${one}`);
    }
  });
}

/** Mean size of the figures of a column. */
function sizeOf(column: Float64Array): number {
  let sum = 0;
  let count = 0;
  for (const value of column) {
    if (Number.isNaN(value)) continue;
    sum += Math.abs(value);
    count++;
  }
  return count === 0 ? 0 : sum / count;
}
