import { describe, expect, it } from 'vitest';
import { cycleGrowth } from '@/lib/core/pipeline/cycle-growth';
import { hindcasts } from '@/lib/core/pipeline/hindcast';
import { dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { waterUnit } from '../../support/forward-readings';

const ALLOWANCE = 2e-4;
const unit = waterUnit();

/** An ended cycle of some days, projected anew. */
function made(days: number, fouling: (day: number) => number, input: { noise?: number; seed?: number } = {}) {
  const daily = dailyRecord(unit, { days, fouling, noise: input.noise ?? 4e-6, seed: input.seed ?? 3 });
  const span = { start: null, end: null, startDay: FIRST_DAY, endDay: FIRST_DAY + days, from: 0, to: days };
  const whole = cycleGrowth(daily, span, { expected: {}, clean: 'datasheet' })!;
  return hindcasts({
    daily,
    span,
    whole,
    systematic: 2e-6,
    expected: {},
    allowance: ALLOWANCE,
    horizonDays: 730,
  });
}

describe('a past cycle projected anew', () => {
  it('is made at a quarter, half and three quarters of the days to its limit, and set beside the day it came', () => {
    const record = made(220, (day) => 1e-6 * day);
    expect(record.map(({ shareOfLife }) => shareOfLife)).toEqual([0.25, 0.5, 0.75]);
    for (const { level, isLimit, reachedDay, reachedUncertainty } of record) {
      expect(isLimit).toBe(true);
      expect(level).toBe(ALLOWANCE);
      expect(Math.abs(reachedDay - FIRST_DAY - 200)).toBeLessThanOrEqual(4);
      expect(reachedUncertainty).toBeLessThan(4);
    }
    expect(record.map(({ madeDay }) => madeDay - FIRST_DAY)).toEqual([
      expect.closeTo(50, -0.5),
      expect.closeTo(100, -0.5),
      expect.closeTo(150, -0.5),
    ]);
  });

  it('uses nothing that came after the day it is made on', () => {
    const straight = made(220, (day) => 1e-6 * day);
    const bent = made(220, (day) => 1e-6 * day + (day > 115 ? 2e-6 * (day - 115) : 0));
    // The limit is reached at another time, so that the days of making differ: one before the bend sees a straight line.
    const early = bent.find(({ madeDay }) => madeDay < FIRST_DAY + 80)!;
    expect(early.p50Day! - early.reachedDay).toBeGreaterThan(20);
    expect(straight.every(({ p50Day, reachedDay }) => Math.abs(p50Day! - reachedDay) < 60)).toBe(true);
  });

  it('is held where the score is at most 1, and then P10 to P90 hold the day to within their rounding', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      for (const { held, score, p10Day, p90Day, reachedDay } of made(220, (day) => 1e-6 * day, { seed })) {
        expect(held).toBe(score <= 1);
        const isBetween = (p10Day ?? Infinity) <= reachedDay && reachedDay <= (p90Day ?? Infinity);
        const isAtEdge =
          Math.min(Math.abs((p10Day ?? 0) - reachedDay), Math.abs((p90Day ?? 0) - reachedDay)) <= 1;
        expect(held === isBetween || isAtEdge).toBe(true);
      }
    }
  });

  it('is judged by 95 % of its rise where it was cleaned before the limit', () => {
    const record = made(120, (day) => 1e-6 * day);
    for (const { isLimit, level, reachedDay } of record) {
      expect(isLimit).toBe(false);
      expect(Math.abs(level / (0.95 * 119e-6) - 1)).toBeLessThan(0.05);
      expect(Math.abs(reachedDay - FIRST_DAY - 0.95 * 119)).toBeLessThan(4);
    }
    expect(record).toHaveLength(3);
  });

  it('is none where nothing grew, or so flat that nobody can say when', () => {
    expect(made(200, () => 3e-5)).toEqual([]);
    expect(made(400, (day) => 1e-4 * -Math.expm1(-day / 15))).toEqual([]);
  });
});
