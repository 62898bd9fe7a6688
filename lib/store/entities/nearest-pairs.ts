/**
 * Pairs instants before with instants after, as many as can be, so that all of them together move the least; those that stay
 * over are of the longer list.
 *
 * @param before ascending [ms]
 * @param after  ascending [ms]
 * @returns pairs of indexes, ascending in both
 */
export function nearestPairs(before: readonly number[], after: readonly number[]): [number, number][] {
  if (before.length > after.length)
    return nearestPairs(after, before).map(([one, other]): [number, number] => [other, one]);
  // least[i][j]: least way that the first i go among the first j of the longer list.
  const least = [Array.from(after, () => 0).concat(0)];
  before.forEach((from, i) => {
    const row = [Number.POSITIVE_INFINITY];
    after.forEach((to, j) => {
      row.push(Math.min(row[j]!, least[i]![j]! + Math.abs(to - from)));
    });
    least.push(row);
  });
  const pairs: [number, number][] = [];
  let j = after.length;
  for (let i = before.length; i > 0; i--) {
    while (least[i]![j - 1] === least[i]![j]) j--;
    pairs.unshift([i - 1, --j]);
  }
  return pairs;
}
