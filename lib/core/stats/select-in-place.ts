/** Samples up to this size are sorted by insertion: nothing is quicker for so few [-]. */
const SMALL = 24;

/**
 * Sorts a small sample in place; NaN last.
 *
 * @param values sample [any unit], overwritten; some dozen values at most, for the time grows with their square
 * @returns values, ascending
 * @range any
 * @source Knuth, The Art of Computer Programming vol. 3, 2nd ed. 1998, algorithm 5.2.1S
 * @check tests/core/stats/select-in-place.test.ts
 */
export function sortSmall(values: Float64Array): Float64Array {
  sortStretch(values, 0, values.length - 1);
  return values;
}

function sortStretch(values: Float64Array, first: number, last: number): void {
  for (let i = first + 1; i <= last; i++) {
    const value = values[i]!;
    let at = i;
    while (at > first && isAbove(values[at - 1]!, value)) {
      values[at] = values[at - 1]!;
      at--;
    }
    values[at] = value;
  }
}

function isAbove(value: number, other: number): boolean {
  return value > other || (Number.isNaN(value) && !Number.isNaN(other));
}

/**
 * Moves the values of two ranks, one behind the other, to where sorting would put them; nothing else is put in order. Each round
 * leaves the part that the rank lies in, so that the time grows with the size only.
 *
 * @param values sample [any unit], its first `count` in any order; they are rearranged
 * @param count  how many of them are the sample [-]
 * @param rank   of the first of the two values [-], from 0 on
 * @range any; NaN counts as greater than any number
 * @returns nothing
 * @source Hoare, Algorithm 65: FIND, Commun. ACM 4 (1961) 321-322
 * @check tests/core/stats/select-in-place.test.ts
 */
export function selectInPlace(values: Float64Array, count: number, rank: number): void {
  let first = 0;
  let last = moveNaNsToEnd(values, count);
  if (rank > last) return;
  const end = last;
  while (last - first > SMALL) {
    const pivot = middleOf(values[first]!, values[(first + last) >> 1]!, values[last]!);
    let [i, j] = [first, last];
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const value = values[i]!;
      values[i++] = values[j]!;
      values[j--] = value;
    }
    if (rank <= j) last = j;
    else if (rank >= i) first = i;
    else break;
  }
  if (last - first <= SMALL) sortStretch(values, first, last);
  // The next rank may lie beyond the part looked at: it is the least of what is left.
  bringLeastTo(values, rank + 1, end);
}

/** Index of the last number once every NaN stands behind them. */
function moveNaNsToEnd(values: Float64Array, count: number): number {
  let last = count - 1;
  for (let i = last; i >= 0; i--) {
    if (!Number.isNaN(values[i]!)) continue;
    values[i] = values[last]!;
    values[last--] = Number.NaN;
  }
  return last;
}

function bringLeastTo(values: Float64Array, place: number, end: number): void {
  if (place > end) return;
  let least = place;
  for (let i = place + 1; i <= end; i++) if (values[i]! < values[least]!) least = i;
  const value = values[place]!;
  values[place] = values[least]!;
  values[least] = value;
}

function middleOf(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
