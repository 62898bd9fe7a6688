import { describe, expect, it } from 'vitest';
import { fitGrowth } from '@/lib/core/growth/fit-growth';
import {
  type EndedCycle,
  endedCycle,
  expectation,
  expectationFromLike,
  lendingOf,
  spreadOfNextRate,
} from '@/lib/core/pipeline/lending';
import { makeRandom } from '@/lib/core/stats/random';

function cycleOf(rate: number, days: number, seed = 8): EndedCycle | null {
  const random = makeRandom(seed);
  const ageDays = Array.from({ length: days }, (_, i) => i);
  const figures = {
    ageDays,
    foulingResistance: ageDays.map((age) => rate * age + 1e-6 * random.normal()),
    uncertainty: ageDays.map(() => 1e-6),
  };
  return endedCycle(figures, fitGrowth(figures));
}

describe('what ended cycles lend', () => {
  it('is their median rate over the days all of them cover', () => {
    const lending = lendingOf([cycleOf(1e-6, 60)!, cycleOf(2e-6, 100)!, cycleOf(1.5e-6, 80)!])!;
    expect(Math.abs(lending.ratePerDay / 1.5e-6 - 1)).toBeLessThan(0.05);
    expect(lending.overDays).toBe(59);
    expect(lending.cycles).toBe(3);
    // (1/3)² + (1/3)² about the median.
    expect(lending.departure).toBeCloseTo(2 / 9, 1);
  });

  it('is nothing from cycles too short, from none, and from cycles that did not grow', () => {
    expect(cycleOf(1e-6, 13)).toBeNull();
    expect(cycleOf(1e-6, 21)).toBeNull();
    expect(cycleOf(1e-6, 23)).not.toBeNull();
    expect(lendingOf([])).toBeNull();
    expect(lendingOf([cycleOf(-1e-6, 60)!])).toBeNull();
  });
});

describe('what is expected of a cycle', () => {
  const own = (...rates: number[]) => lendingOf(rates.map((rate, i) => cycleOf(rate, 60, i + 1)!))!;
  const relative = ({ expected }: ReturnType<typeof expectation>) =>
    expected.prior!.ratePerDayUncertainty / expected.prior!.ratePerDay;

  it('is nothing where nobody lends', () => {
    expect(expectation(null)).toEqual({
      expected: {},
      borrowed: { from: 'none', cycles: 0, units: 0 },
    });
  });

  it('comes from the unit’s own cycles before any other', () => {
    const { expected, borrowed } = expectation(own(1e-6, 1e-6), expectationFromLike([own(5e-6)]));
    expect(borrowed).toEqual({ from: 'own-cycles', cycles: 2, units: 0 });
    expect(Math.abs(expected.prior!.ratePerDay / 1e-6 - 1)).toBeLessThan(0.05);
  });

  it('is as loose as usual after one cycle, and tighter the more alike they are', () => {
    // One cycle: 0.35·√2. Four alike: √(2·0.35²/5·1.25).
    expect(relative(expectation(own(1e-6)))).toBeCloseTo(0.35 * Math.SQRT2, 6);
    const alike = relative(expectation(own(1e-6, 1e-6, 1e-6, 1e-6)));
    expect(alike).toBeCloseTo(Math.sqrt(((2 * 0.35 ** 2) / 5) * 1.25), 2);
    expect(relative(expectation(own(1e-6, 2e-6, 0.5e-6, 1.4e-6)))).toBeGreaterThan(alike);
  });

  it('comes from like units where the unit has none: their median, more loosely', () => {
    const { expected, borrowed } = expectationFromLike([own(1e-6), own(2e-6, 2e-6), own(3e-6)]);
    expect(borrowed).toEqual({ from: 'like-units', cycles: 4, units: 3 });
    expect(Math.abs(expected.prior!.ratePerDay / 2e-6 - 1)).toBeLessThan(0.05);
    expect(relative({ expected, borrowed })).toBeGreaterThan(0.4);
  });
});

describe('how far the rate of the next cycle may be from this one’s', () => {
  const lending = (...rates: number[]) => lendingOf(rates.map((rate, i) => cycleOf(rate, 60, i + 1)!))!;

  it('is the usual spread of one cycle against another where no cycle has ended', () => {
    expect(spreadOfNextRate(null)).toBeCloseTo(0.35 * Math.SQRT2, 12);
  });

  it('is smaller after cycles that were alike, and larger after cycles that were not', () => {
    const alike = spreadOfNextRate(lending(1e-6, 1e-6, 1e-6));
    expect(alike).toBeLessThan(spreadOfNextRate(null));
    expect(spreadOfNextRate(lending(0.4e-6, 1e-6, 2e-6))).toBeGreaterThan(alike);
  });
});
