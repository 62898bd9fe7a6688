import { describe, expect, it } from 'vitest';
import { normalCdf } from '@/lib/core/stats/normal';
import { makeRandom } from '@/lib/core/stats/random';
import { mean, standardDeviation } from '@/lib/core/stats/spread';

const COUNT = 20_000;
const draws = (seed: number, kind: 'uniform' | 'normal') => {
  const random = makeRandom(seed);
  return Float64Array.from({ length: COUNT }, () => random[kind]());
};

/** Largest distance between the sample's and the true distribution function (Kolmogorov). */
function distance(sample: Float64Array, cdf: (x: number) => number): number {
  return sample.sort().reduce((most, x, i) => Math.max(most, Math.abs(cdf(x) - (i + 0.5) / COUNT)), 0);
}
/** Kolmogorov's 1 % point: 1.63/√n. */
const ONE_PERCENT = 1.63 / Math.sqrt(COUNT);

describe('seeded random numbers', () => {
  it('the same seed gives the same stream, another seed another one', () => {
    expect(draws(7, 'normal')).toEqual(draws(7, 'normal'));
    expect(draws(8, 'uniform').slice(0, 5)).not.toEqual(draws(7, 'uniform').slice(0, 5));
    expect(draws(-1, 'uniform')[0]).not.toBe(draws(1, 'uniform')[0]);
    expect(draws(2 ** 40, 'uniform')[0]).not.toBe(draws(0, 'uniform')[0]);
  });

  it('uniform numbers are uniform on 0 to 1, normal ones normal (Kolmogorov, 1 %)', () => {
    for (const seed of [1, 2, 3]) {
      expect(distance(draws(seed, 'uniform'), (x) => x)).toBeLessThan(ONE_PERCENT);
      expect(distance(draws(seed, 'normal'), normalCdf)).toBeLessThan(ONE_PERCENT);
    }
  });

  it('normal numbers have mean 0 and deviation 1', () => {
    const sample = draws(4, 'normal');
    expect(Math.abs(mean(sample))).toBeLessThan(0.025);
    expect(Math.abs(standardDeviation(sample) - 1)).toBeLessThan(0.02);
    expect(standardDeviation([1])).toBeNaN();
  });

  it('neighbouring seeds are not correlated', () => {
    const [a, b] = [draws(100, 'normal'), draws(101, 'normal')];
    expect(Math.abs(mean(a.map((value, i) => value * b[i]!)))).toBeLessThan(0.025);
  });

  it('refuses a seed that is no integer', () => expect(() => makeRandom(0.5)).toThrow(RangeError));
});
