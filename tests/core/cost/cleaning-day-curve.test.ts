import { describe, expect, it } from 'vitest';
import { cleaningDayCurve, NEARLY_BEST, type RunningCycle } from '@/lib/core/cost/cleaning-day-curve';
import { tabulatedLoss } from '@/lib/core/cost/tabulated-loss';

const YEARLY = Array.from({ length: 105 }, (_, week) => 7 * week);
const [COST, GROWTH] = [4000, 1.6];
/** Days after which a loss that grows by 1.6 money/day each day is cheapest ended: √(2C/k) = 70.71 (Harris 1913). */
const SQUARE_ROOT = Math.sqrt((2 * COST) / GROWTH);

/** A cycle whose loss rate is k·t since it began, so many days ago. */
function linear(daysSoFar: number, change: Partial<RunningCycle> = {}): RunningCycle {
  return {
    cleaningCost: COST,
    downtimeCost: 0,
    outageDays: 0,
    daysSoFar,
    lossSoFar: (GROWTH * daysSoFar ** 2) / 2,
    ages: YEARLY,
    lossRates: YEARLY.map((age) => GROWTH * (daysSoFar + age)),
    ...change,
  };
}

describe('cost of the running cycle by the day of its cleaning', () => {
  it('is least at √(2C/k) for a loss that grows evenly, however much of the cycle has passed', () => {
    for (const daysSoFar of [0, 1, 30, 60]) {
      const { best } = cleaningDayCurve(linear(daysSoFar));
      expect(best!.day + daysSoFar).toBeCloseTo(SQUARE_ROOT, 6);
      expect(best!.meanCost).toBeCloseTo(Math.sqrt(2 * COST * GROWTH), 6);
    }
  });

  it('with an outage is least at −t + √(t² + 2(C + D)/k)', () => {
    const { best } = cleaningDayCurve(linear(20, { outageDays: 3, downtimeCost: 2700 }));
    expect(best!.day + 20).toBeCloseTo(-3 + Math.sqrt(9 + (2 * 6700) / GROWTH), 6);
  });

  it('is today for a cycle that should have ended before', () => {
    const { best, flat } = cleaningDayCurve(linear(100));
    expect(best!.day).toBe(0);
    expect(flat!.from).toBe(0);
  });

  it('has no least within the horizon where the loss does not grow', () => {
    const curve = cleaningDayCurve(linear(10, { lossRates: YEARLY.map(() => 5) }));
    expect(curve.best).toBeNull();
    expect(curve.flat).toBeNull();
  });

  it('is nearly flat about its least: between the two roots of ½kT² − 1.05·√(2Ck)·T + C', () => {
    const { flat } = cleaningDayCurve(linear(10));
    const middle = ((1 + NEARLY_BEST) * Math.sqrt(2 * COST * GROWTH)) / GROWTH;
    const half = Math.sqrt(middle ** 2 - SQUARE_ROOT ** 2);
    expect(flat!.from + 10).toBeCloseTo(middle - half, 5);
    expect(flat!.to! + 10).toBeCloseTo(middle + half, 5);
    const short = YEARLY.slice(0, 12);
    const within = cleaningDayCurve(
      linear(10, { ages: short, lossRates: short.map((age) => GROWTH * (10 + age)) }),
    );
    expect(within.best!.day).toBeCloseTo(SQUARE_ROOT - 10, 6);
    expect(within.flat!.to).toBeNull();
  });

  it('agrees with the lowest of a fine sum for a bent loss rate', () => {
    const lossRates = YEARLY.map((age) => 120 * -Math.expm1(-(age + 40) / 60));
    const input = linear(40, { lossRates, lossSoFar: 900, outageDays: 2 });
    const { best, points } = cleaningDayCurve(input);
    const rateOn = (day: number) => {
      const week = Math.min(Math.floor(day / 7), YEARLY.length - 2);
      return lossRates[week]! + ((day - 7 * week) / 7) * (lossRates[week + 1]! - lossRates[week]!);
    };
    const step = 0.01;
    let [lost, least, leastDay] = [900, Number.POSITIVE_INFINITY, 0];
    for (let i = 0; i < 72_000; i++) {
      const mean = (COST + lost) / (40 + i * step + 2);
      if (mean < least) [least, leastDay] = [mean, i * step];
      lost += rateOn((i + 0.5) * step) * step;
    }
    expect(Math.abs(best!.day - leastDay)).toBeLessThan(0.02);
    expect(best!.meanCost).toBeCloseTo(least, 6);
    expect(points[0]).toEqual({ day: 0, meanCost: 4900 / 42, lossUntilThen: 900 });
    // The sum ends on day 720, the last age is day 728.
    expect(points.at(-1)!.lossUntilThen).toBeCloseTo(lost + (8 * (rateOn(720) + rateOn(728))) / 2, 0);
  });

  it('has no point of a cycle of no length', () => {
    expect(cleaningDayCurve(linear(0)).points[0]!.day).toBe(7);
  });
});

describe('a loss rate given at some days', () => {
  const loss = tabulatedLoss([0, 2, 6], [0, 4, 2]);

  it('is summed exactly along its straight lines', () => {
    expect([0, 1, 2, 4, 6].map(loss.rateAt)).toEqual([0, 2, 4, 3, 2]);
    expect([0, 1, 2, 4, 6].map(loss.until)).toEqual([0, 1, 4, 11, 16]);
  });

  it('stays as it was beyond the last day', () => {
    expect(loss.rateAt(9)).toBe(2);
    expect(loss.until(9)).toBe(22);
  });

  it('refuses days without rates', () => {
    expect(() => tabulatedLoss([0, 1], [1])).toThrow(RangeError);
    expect(() => tabulatedLoss([], [])).toThrow(RangeError);
  });
});
