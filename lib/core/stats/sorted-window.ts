import { NORMAL_CONSISTENCY } from './spread';

/** The values `first` to `last` of a series in ascending order: what a window that moves along it holds. */
export type SortedWindow = {
  sorted: Float64Array;
  /** Places in the series; `last` is one before `first` while the window is empty [-]. */
  first: number;
  last: number;
};

/**
 * An empty window at the beginning of a series.
 *
 * @param length most values it can hold at once [-]
 * @returns a window for `moveWindow`
 * @range  1 and more
 * @source none: room only
 * @check  tests/core/stats/sorted-window.test.ts
 */
export function makeSortedWindow(length: number): SortedWindow {
  return { sorted: new Float64Array(length + 1), first: 0, last: -1 };
}

/**
 * Moves the window on along a series: each value is put in and taken out once, so that a whole series costs its length times
 * the window's at most, however the window is placed.
 *
 * @param window changed in place
 * @param values the series, always the same [any unit], without NaN
 * @param first  first place of the window now, not before where it was [-]
 * @param last   last place of the window now, not before where it was, ≥ first [-]
 * @returns nothing
 * @range  as many values as the window was made for
 * @source insertion into a sorted list, element by element
 * @check  tests/core/stats/sorted-window.test.ts
 */
export function moveWindow(window: SortedWindow, values: Float64Array, first: number, last: number): void {
  const { sorted } = window;
  let count = window.last - window.first + 1;
  let out = window.first;
  for (let put = window.last + 1; put <= last; put++) {
    const value = values[put]!;
    // Where one goes as another comes, only the values between the two move.
    let at = out < first && count > 0 ? placeOf(sorted, values[out++]!) : count++;
    while (at > 0 && sorted[at - 1]! > value) {
      sorted[at] = sorted[at - 1]!;
      at--;
    }
    while (at < count - 1 && sorted[at + 1]! < value) {
      sorted[at] = sorted[at + 1]!;
      at++;
    }
    sorted[at] = value;
  }
  for (; out < first; out++) {
    count--;
    for (let at = placeOf(sorted, values[out]!); at < count; at++) sorted[at] = sorted[at + 1]!;
  }
  window.first = first;
  window.last = last;
}

function placeOf(sorted: Float64Array, value: number): number {
  let at = 0;
  while (sorted[at]! < value) at++;
  return at;
}

/**
 * Median of a window.
 *
 * @param window not empty
 * @returns [unit of the series]
 * @range  any
 * @source the middle value, or the mean of the two middle values
 * @check  tests/core/stats/sorted-window.test.ts
 */
export function windowMedian({ sorted, first, last }: SortedWindow): number {
  const count = last - first + 1;
  const middle = count >> 1;
  return count % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/**
 * Scaled median absolute deviation of a window about its median: an estimate of a standard deviation.
 *
 * @param window not empty
 * @returns [unit of the series]
 * @range  any
 * @source Hampel, J. Am. Stat. Assoc. 69 (1974) 383-393; merge of the deviations to both sides, which are in order as they stand
 * @check  tests/core/stats/sorted-window.test.ts
 */
export function windowScale(window: SortedWindow): number {
  const { sorted, first, last } = window;
  const centre = windowMedian(window);
  const count = last - first + 1;
  let up = count >> 1;
  let down = up - 1;
  let before = 0;
  let deviation = 0;
  for (let taken = 0; taken <= count >> 1; taken++) {
    before = deviation;
    const above = up < count ? Math.abs(sorted[up]! - centre) : Number.POSITIVE_INFINITY;
    const below = down >= 0 ? Math.abs(sorted[down]! - centre) : Number.POSITIVE_INFINITY;
    if (above <= below) {
      deviation = above;
      up++;
    } else {
      deviation = below;
      down--;
    }
  }
  return NORMAL_CONSISTENCY * (count % 2 === 1 ? deviation : (before + deviation) / 2);
}
