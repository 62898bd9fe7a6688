import { describe, expect, it } from 'vitest';
import { CRITICAL_RATIO, makeSteadyRatio, RATIO_WARM_UP, steadyRatio } from '@/lib/core/checks/steady-ratio';
import { quantile } from '@/lib/core/stats/quantile';
import { makeRandom } from '@/lib/core/stats/random';

const SERIES = 400;
const LENGTH = 220;

/** Ratios of many series from the first that may be judged on; `shape` is added to white noise of deviation 1. */
function ratios(seed: number, shape: (k: number) => number, from = RATIO_WARM_UP): number[] {
  const random = makeRandom(seed);
  return Array.from({ length: SERIES }, () => {
    const state = makeSteadyRatio();
    return Array.from({ length: LENGTH }, (_, k) => steadyRatio(state, shape(k) + random.normal())).slice(
      from,
    );
  }).flat();
}
const above = (all: number[], level: number) => all.filter((ratio) => ratio > level).length / all.length;

describe('the ratio of two variance estimates', () => {
  const noise = ratios(81, () => 0);

  it('is about 1 for white noise', () => {
    expect(quantile(noise, 0.5)).toBeCloseTo(1, 1);
  });

  it('of white noise is above 1.44 in 5 % of cases, the critical value published for weights 0.2, 0.1, 0.1 (from memory: Cao & Rhinehart, J. Process Control 7 (1997) 149-152)', () => {
    // 80,000 ratios, of which one in some 20 is independent: ± 0.7 % is three standard errors.
    expect(Math.abs(above(noise, 1.44) - 0.05)).toBeLessThan(0.007);
  });

  it('of white noise is above the critical ratio in fewer than 1 of 200 cases', () => {
    expect(above(noise, CRITICAL_RATIO)).toBeLessThan(0.005);
  });

  it('is above it nearly always where half the noise is drifted from value to value', () => {
    expect(
      above(
        ratios(82, (k) => 0.5 * k),
        CRITICAL_RATIO,
      ),
    ).toBeGreaterThan(0.99);
  });

  it('does not hang on unit or level of the series', () => {
    const one = makeSteadyRatio();
    const other = makeSteadyRatio();
    const random = makeRandom(83);
    for (let k = 0; k < 50; k++) {
      const value = random.normal();
      expect(steadyRatio(other, 300 + 1000 * value)).toBeCloseTo(steadyRatio(one, value), 9);
    }
  });

  it('is 1 while nothing has moved, and begins anew where the count is set to 0', () => {
    const state = makeSteadyRatio();
    expect([5, 5, 5].map((value) => steadyRatio(state, value))).toEqual([1, 1, 1]);
    expect(steadyRatio(state, 9)).not.toBe(1);
    state.count = 0;
    expect([9, 9].map((value) => steadyRatio(state, value))).toEqual([1, 1]);
  });
});
