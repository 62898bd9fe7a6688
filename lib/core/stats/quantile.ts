/**
 * Sample quantile by linear interpolation of the order statistics (definition 7, "R-7").
 *
 * @param values sample [any unit], any order, length ≥ 1 for an answer; not changed
 * @param probability share below [-], 0 to 1
 * @returns [unit of values]; NaN for an empty sample
 * @range any finite sample
 * @source Hyndman & Fan, Sample Quantiles in Statistical Packages, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/quantile.test.ts
 */
export function quantile(values: ArrayLike<number>, probability: number): number {
  const own = new Float64Array(values);
  const wanted = Math.floor((own.length - 1) * probability);
  // A probability that is none is refused below.
  if (own.length > 0 && wanted >= 0 && wanted < own.length) bringInPlace(own, wanted);
  return quantileOfSorted(own, probability);
}

/**
 * Quantile R-7 of a sample that is already in ascending order.
 *
 * @param sorted ascending sample [any unit]
 * @param probability share below [-], 0 to 1
 * @returns [unit of sorted]; NaN for an empty sample
 * @range any finite sample
 * @source Hyndman & Fan, Sample Quantiles in Statistical Packages, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/quantile.test.ts
 */
export function quantileOfSorted(sorted: ArrayLike<number>, probability: number): number {
  if (!(probability >= 0 && probability <= 1)) throw new RangeError('probability must lie in 0 to 1');
  if (sorted.length === 0) return Number.NaN;
  const position = (sorted.length - 1) * probability;
  const below = Math.floor(position);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
  return low + (position - below) * (high - low);
}

/** Samples up to this size are sorted by insertion: nothing is quicker for so few [-]. */
const SMALL = 24;

/**
 * Sorts a small sample in place; NaN last.
 *
 * @param values sample [any unit], overwritten; some dozen values at most, for the time grows with their square
 * @returns values, ascending
 * @range any
 * @source Knuth, The Art of Computer Programming vol. 3, 2nd ed. 1998, algorithm 5.2.1S
 * @check tests/core/stats/quantile.test.ts
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
 * Moves the values of two ranks, one behind the other, to where sorting would put them; nothing else is put in order.
 * Hoare's FIND: each round leaves the part that the rank lies in, so that the time grows with the size only.
 */
function bringInPlace(values: Float64Array, rank: number): void {
  let first = 0;
  let last = moveNaNsToEnd(values);
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
function moveNaNsToEnd(values: Float64Array): number {
  let last = values.length - 1;
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

/**
 * Median: the middle value, or the mean of the two middle values.
 *
 * @param values sample [any unit], any order; not changed
 * @returns [unit of values]; NaN for an empty sample
 * @range any finite sample
 * @source Hyndman & Fan, Sample Quantiles in Statistical Packages, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/published/trend-statistics.test.ts
 */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}
