import { describe, expect, it } from 'vitest';
import type { CycleSpan } from '@/lib/core/cycles/split-cycles';
import { energyLost, losses, recentLostDuty } from '@/lib/core/pipeline/energy-lost';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';

const SECONDS = 86_400;
function record(days: number[], lostDuty: number[]) {
  const daily = makeDailyColumns(days.length);
  daily.day.set(days);
  daily.lostDuty.set(lostDuty);
  return daily;
}
const whole = { firstDay: 0, lastDay: 1000 };

describe('energy lost', () => {
  it('is the sum of daily lost duties over their days', () => {
    const daily = record([10, 11, 12], [100, 200, 300]);
    expect(energyLost(daily, { from: 0, to: 3 }, whole)).toBe(600 * SECONDS);
    expect(energyLost(daily, { from: 0, to: 3 }, { firstDay: 11, lastDay: 11 })).toBe(200 * SECONDS);
  });

  it('takes up to seven days without a figure on a straight line, and no longer gap', () => {
    const bridged = record([10, 18], [100, 180]);
    expect(energyLost(bridged, { from: 0, to: 2 }, whole)).toBeCloseTo(9 * 140 * SECONDS, 3);
    const open = record([10, 19], [100, 180]);
    expect(energyLost(open, { from: 0, to: 2 }, whole)).toBe(280 * SECONDS);
  });

  it('bridges days whose figure is missing', () => {
    const daily = record([10, 11, 12], [100, Number.NaN, 300]);
    expect(energyLost(daily, { from: 0, to: 3 }, whole)).toBeCloseTo(600 * SECONDS, 3);
  });

  it('is not known where no day counts', () => {
    expect(energyLost(record([10], [Number.NaN]), { from: 0, to: 1 }, whole)).toBeNull();
    expect(losses(record([], []), [], 10)).toEqual({
      energyLostSinceCleaning: null,
      energyLostLast30Days: null,
    });
  });

  it('is told since the cleaning and over the last thirty days, not bridged across a cleaning', () => {
    const span = (startDay: number, from: number, to: number): CycleSpan => ({
      start: null,
      end: null,
      startDay,
      endDay: startDay,
      from,
      to,
    });
    const daily = record([60, 71, 72, 75, 76], [1000, 50, 60, 1, 2]);
    const cycles = [span(60, 0, 3), span(75, 3, 5)];
    expect(losses(daily, cycles, 100)).toEqual({
      energyLostSinceCleaning: 3 * SECONDS,
      energyLostLast30Days: 113 * SECONDS,
    });
    expect(losses(daily, cycles, 200).energyLostLast30Days).toBeNull();
  });
});

describe("today's lost duty", () => {
  it('is the mean of the last seven days with figures', () => {
    const daily = record([1, 2, 3, 4, 5, 6, 7, 8, 9], [99, 1, 2, Number.NaN, 3, 4, 5, 6, 7]);
    expect(recentLostDuty(daily, { from: 0, to: 9 })).toBe(4);
    expect(recentLostDuty(daily, { from: 7, to: 9 })).toBe(6.5);
    expect(recentLostDuty(daily, { from: 3, to: 4 })).toBeNull();
  });
});
