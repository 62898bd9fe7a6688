import { expect, test } from 'vitest';
import { makeRandom } from '@/lib/core/stats/random';
import { makeSortedWindow, moveWindow, windowMedian, windowScale } from '@/lib/core/stats/sorted-window';

function middleOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

test('wherever it is moved to, a window has median and scale of the values it spans', () => {
  const random = makeRandom(1966);
  // Rounded, so that many values are equal.
  const values = Float64Array.from({ length: 600 }, () => 100 + Math.round(8 * random.normal()) / 4);
  const window = makeSortedWindow(13);
  let first = 0;
  let last = -1;
  while (last < values.length - 1) {
    // Steps of none to twenty places: windows that do not overlap the one before are among them.
    first = Math.min(values.length - 1, Math.max(first, last + 1 - Math.floor(13 * random.uniform())));
    last = Math.min(values.length - 1, Math.max(last, first + Math.floor(13 * random.uniform())));
    first = Math.max(first, last - 12);
    moveWindow(window, values, first, last);
    const spanned = [...values.slice(first, last + 1)];
    const centre = middleOf(spanned);
    expect(windowMedian(window)).toBe(centre);
    const deviations = spanned.map((value) => Math.abs(value - centre));
    expect(windowScale(window)).toBe(1.4826 * middleOf(deviations));
    if (last - first < 3 && random.uniform() < 0.3) first = last;
  }
});

test('a window cut at both ends of a series holds what is left of it', () => {
  const values = Float64Array.of(3, 1, 2, 5, 4);
  const window = makeSortedWindow(5);
  moveWindow(window, values, 0, 1);
  expect(windowMedian(window)).toBe(2);
  moveWindow(window, values, 0, 4);
  expect(windowMedian(window)).toBe(3);
  moveWindow(window, values, 4, 4);
  expect([windowMedian(window), windowScale(window)]).toEqual([4, 0]);
});
