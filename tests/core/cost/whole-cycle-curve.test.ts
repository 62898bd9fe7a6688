import { describe, expect, it } from 'vitest';
import { cleaningDayCurve, NEARLY_BEST } from '@/lib/core/cost/cleaning-day-curve';
import { type WholeCycle, wholeCycleCurve } from '@/lib/core/cost/whole-cycle-curve';

const AGES = Array.from({ length: 105 }, (_, week) => 7 * week);
const [COST, GROWTH] = [4000, 1.6];
/** √(2C/k) = 70.71 days at √(2Ck) a day (square-root rule, Harris 1913). */
const SQUARE_ROOT = Math.sqrt((2 * COST) / GROWTH);
const LEAST = Math.sqrt(2 * COST * GROWTH);
/** Roots of ½kT² − 1.05·√(2Ck)·T + C: where the mean cost is 5 % above the least. */
const MIDDLE = ((1 + NEARLY_BEST) * LEAST) / GROWTH;
const HALF = Math.sqrt(MIDDLE ** 2 - SQUARE_ROOT ** 2);

/** A cycle whose loss rate is k·t since it began, so many days ago. */
function linear(daysSoFar: number, change: Partial<WholeCycle> = {}): WholeCycle {
  return {
    cleaningCost: COST,
    downtimeCost: 0,
    outageDays: 0,
    lostUntil: Array.from({ length: daysSoFar }, (_, index) => (GROWTH * (index + 1) ** 2) / 2),
    ages: AGES,
    lossRates: AGES.map((age) => GROWTH * (daysSoFar + age)),
    ...change,
  };
}

describe('the whole curve of a cycle', () => {
  it('is C/T + ½kT on every day of it, those that have passed and those ahead, and joins at today', () => {
    const { past, ahead } = wholeCycleCurve(linear(40));
    expect([past[0]!.day, past.at(-1)!.day, ahead[0]!.day]).toEqual([-39, 0, 0]);
    for (const { day, meanCost } of [...past, ...ahead]) {
      const age = 40 + day;
      expect(meanCost).toBeCloseTo(COST / age + (GROWTH * age) / 2, 8);
    }
    expect(past.at(-1)).toEqual(ahead[0]);
  });

  it('has its least at √(2C/k) days, ahead of today or behind it', () => {
    for (const daysSoFar of [20, 60, 100, 300]) {
      const { least } = wholeCycleCurve(linear(daysSoFar));
      // Ahead it is found between days; the past is known by whole days.
      expect(Math.abs(least!.day + daysSoFar - SQUARE_ROOT)).toBeLessThan(daysSoFar < 70 ? 1e-6 : 0.5);
      expect(least!.meanCost).toBeCloseTo(LEAST, daysSoFar < 70 ? 6 : 2);
    }
  });

  it('is nearly flat between the same two ages wherever today lies', () => {
    for (const daysSoFar of [20, 60, 75, 90, 300]) {
      const { flat } = wholeCycleCurve(linear(daysSoFar));
      expect(Math.abs(flat!.from + daysSoFar - (MIDDLE - HALF))).toBeLessThan(1);
      expect(Math.abs(flat!.to! + daysSoFar - (MIDDLE + HALF))).toBeLessThan(1);
    }
  });

  it('ends the flat range where the mean cost first leaves it', () => {
    // Nothing was lost from day 121 to day 260: the mean cost fell again after it had risen.
    const lostUntil = Array.from({ length: 300 }, (_, index) => {
      const lossy = Math.min(index + 1, 120) + Math.max(0, index - 259);
      return (GROWTH * lossy ** 2) / 2;
    });
    const cycle = linear(300, { lostUntil, lossRates: AGES.map((age) => 500 + age) });
    const { past, least, flat } = wholeCycleCurve(cycle);
    const limit = 1.05 * Math.min(...past.map(({ meanCost }) => meanCost));
    expect(least!.meanCost).toBe(Math.min(...past.map(({ meanCost }) => meanCost)));
    const within = past.filter(({ day }) => day >= flat!.from && day <= flat!.to!);
    expect(within.every(({ meanCost }) => meanCost <= limit)).toBe(true);
    expect(past.find(({ day }) => day === flat!.from - 1)!.meanCost).toBeGreaterThan(limit);
    expect(past.find(({ day }) => day === flat!.to! + 1)!.meanCost).toBeGreaterThan(limit);
  });

  it('has a least behind today where that was lower than any ahead, and says the least ahead beside it', () => {
    // More was lost in the past than is expected: 100 days at 300 a day after 50 without a loss.
    const lostUntil = Array.from({ length: 150 }, (_, index) => 300 * Math.max(0, index - 49));
    const { least, leastAhead, past } = wholeCycleCurve(
      linear(150, { lostUntil, lossRates: AGES.map((age) => 100 + age) }),
    );
    expect(least).toEqual({ day: -100, meanCost: COST / 50 });
    expect(past.at(-1)!.meanCost).toBeCloseTo((COST + 30_000) / 150, 9);
    // (34,000 + 100·t + t²/2)/(150 + t) is least at −150 + √(150² + 2·(34,000 − 150·100)) = 96.0.
    expect(leastAhead!.day).toBeCloseTo(-150 + Math.sqrt(150 ** 2 + 2 * (34_000 - 15_000)), 5);
  });

  it('has no least where it still falls at the last age', () => {
    const { least, flat, ahead } = wholeCycleCurve(linear(10, { lossRates: AGES.map(() => 5) }));
    expect([least, flat]).toEqual([null, null]);
    expect(ahead).toHaveLength(AGES.length);
  });

  it('says of the days ahead what their curve alone says', () => {
    const cycle = linear(30, { outageDays: 2, downtimeCost: 900 });
    const { lostUntil, ...running } = cycle;
    const alone = cleaningDayCurve({ ...running, daysSoFar: 30, lossSoFar: lostUntil.at(-1)! });
    expect(wholeCycleCurve(cycle)).toMatchObject({
      ahead: alone.points,
      least: alone.best,
      leastAhead: alone.best,
    });
  });
});
