import { selectInPlace } from './select-in-place';

/** Values within this share of the guess are put in order first [-] (own choice: it holds steps of a fit that settles). */
const NEAR = 0.05;

/**
 * Median of the first values of an array, by selection: linear in their number, without a copy, for loops over many days.
 * The same figure, to the last digit, as `median`.
 *
 * @param values sample [any unit], its first `count` in any order; they are rearranged
 * @param count  how many of them are the sample [-], 0 to the array's length
 * @returns [unit of values]; NaN for an empty sample
 * @range any sample; NaN counts as greater than any number, and beside the middle the median is NaN
 * @source Hyndman & Fan, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/median-in-place.test.ts
 */
export function medianInPlace(values: Float64Array, count: number): number {
  return count === 0 ? Number.NaN : middleOf(values, count, { size: count, below: 0 });
}

/**
 * Median of distances of which about half lie below a guess: only those near it are put in order, which takes a fraction of the
 * time where the guess is good and no harm where it is not. The same figure, to the last digit, as `median`.
 *
 * @param values sample [any unit], ≥ 0; not changed
 * @param guess  [unit of values]; NaN for none
 * @param room   array of the same length, overwritten
 * @returns [unit of values]; NaN for an empty sample
 * @range numbers only
 * @source Hyndman & Fan, Am. Stat. 50 (1996) 361-365, definition 7
 * @check tests/core/stats/median-in-place.test.ts
 */
export function medianNear(values: Float64Array, guess: number, room: Float64Array): number {
  const low = guess * (1 - NEAR);
  const high = guess * (1 + NEAR);
  const size = values.length;
  let below = 0;
  let count = 0;
  for (let i = 0; i < size; i++) {
    const value = values[i]!;
    if (value < low) below++;
    else if (value <= high) room[count++] = value;
  }
  const holdsMiddle = below <= (size - 1) >> 1 && size >> 1 < below + count;
  if (holdsMiddle) return middleOf(room, count, { size, below });
  room.set(values);
  return medianInPlace(room, size);
}

/** Median of a sample of which so many values lie below those given, and the others above. */
function middleOf(
  values: Float64Array,
  count: number,
  { size, below }: { size: number; below: number },
): number {
  const rank = ((size - 1) >> 1) - below;
  selectInPlace(values, count, rank);
  const low = values[rank]!;
  const high = values[Math.min(rank + 1, count - 1)]!;
  return low + (((size - 1) * 0.5) % 1) * (high - low);
}
