import { expect, test } from 'vitest';
import { medianInPlace, medianNear } from '@/lib/core/stats/median-in-place';
import { makeRandom } from '@/lib/core/stats/random';

/** By definition: the middle of the sorted values, or half-way between the two middle ones. */
function byDefinition(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  const [low, high] = [sorted[Math.floor(middle)]!, sorted[Math.ceil(middle)]!];
  return low === high ? low : low + 0.5 * (high - low);
}

test('the median of samples of any length, ties and order included, is that of the sorted sample', () => {
  const random = makeRandom(20_261);
  for (let length = 1; length <= 200; length++) {
    for (const step of [0, 0.5, 3]) {
      const sample = Array.from({ length }, () => {
        const value = 10 * random.normal();
        return step === 0 ? value : Math.round(value / step) * step;
      });
      // What stands behind the sample is not part of it.
      const room = Float64Array.from([...sample, -1e9, 1e9]);
      expect(medianInPlace(room, length)).toBeCloseTo(byDefinition(sample), 12);
    }
  }
});

test('ascending, descending and equal values take no other way', () => {
  const ascending = Float64Array.from({ length: 1441 }, (_, i) => i);
  expect(medianInPlace(ascending.slice(), 1441)).toBe(720);
  expect(medianInPlace(ascending.slice().reverse(), 1441)).toBe(720);
  expect(medianInPlace(new Float64Array(1440).fill(7), 1440)).toBe(7);
});

test('an empty sample has none, and NaN beside the middle leaves none', () => {
  expect(medianInPlace(new Float64Array(3), 0)).toBeNaN();
  expect(medianInPlace(Float64Array.of(Number.NaN, 1, 2, 3, 4), 5)).toBe(3);
  expect(medianInPlace(Float64Array.of(1, Number.NaN, Number.NaN), 3)).toBeNaN();
});

test('with a guess it is the same to the last digit, however good the guess', () => {
  const random = makeRandom(20_262);
  for (let length = 1; length <= 120; length++) {
    const distances = Float64Array.from({ length }, () => Math.abs(random.normal()));
    const before = distances.slice();
    const exact = medianInPlace(distances.slice(), length);
    const room = new Float64Array(length);
    for (const share of [0, 0.5, 0.92, 1, 1.03, 1.09, 3, Number.NaN])
      expect(medianNear(distances, share * exact, room)).toBe(exact);
    expect(distances).toEqual(before);
  }
  expect(medianNear(new Float64Array(4).fill(2), 2, new Float64Array(4))).toBe(2);
  expect(medianNear(new Float64Array(), 1, new Float64Array())).toBeNaN();
});
