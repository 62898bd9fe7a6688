import { describe, expect, it } from 'vitest';
import { binomialInterval } from '@/lib/core/stats/binomial-interval';

describe('95 % interval of a probability', () => {
  // Newcombe, Two-sided confidence intervals for the single proportion, Stat. Med. 17 (1998) 857-872, table I, method 3
  // (score without continuity correction), from memory.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('of %i among %i is the printed one', (successes, trials, low, high) => {
    const interval = binomialInterval(successes, trials);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });

  it('holds those shares that a score test at 5 % would not refuse: at its ends the test is just met', () => {
    const [successes, trials] = [49, 60];
    const { low, high } = binomialInterval(successes, trials);
    for (const end of [low, high]) {
      const score = Math.abs(successes / trials - end) / Math.sqrt((end * (1 - end)) / trials);
      expect(score).toBeCloseTo(1.959963984540054, 9);
    }
  });

  it('is the mirror of that of the failures', () => {
    const held = binomialInterval(3, 17);
    const missed = binomialInterval(14, 17);
    expect(missed.low).toBeCloseTo(1 - held.high, 12);
    expect(missed.high).toBeCloseTo(1 - held.low, 12);
  });

  it('says nothing without a trial, and refuses more successes than trials', () => {
    expect(binomialInterval(0, 0)).toEqual({ low: 0, high: 1 });
    expect(() => binomialInterval(3, 2)).toThrow(RangeError);
  });
});
