import { describe, expect, it } from 'vitest';
import { toCheckSettings, toExchanger } from '@/lib/contract/exchanger-from-unit';
import { fleetFileSchema } from '@/lib/contract/fleet-file';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { localDay } from '@/lib/time/local-clock';
import { localDays } from '@/lib/time/local-day';
import { generateReadings } from '@/seed/generate/generate-readings';
import { MS_PER_DAY } from '@/seed/generate/true-cycles';
import type { UnitPlan } from '@/seed/generate/unit-plan';
import { makeHeldOutFleet } from '@/seed/held-out';

const END = Date.parse('2026-11-25T08:00:00Z');
const SPAN = { start: END - 300 * MS_PER_DAY, end: END, stepMs: 2 * 3_600_000 };

/** Days to the limit as projected from readings of ordinary sensors, and as it will truly be. */
function projected(plan: UnitPlan, seed: number) {
  const { readings, truth } = generateReadings(plan, { ...SPAN, seed });
  const exchanger = toExchanger(plan.unit);
  const evaluation = evaluateReadings({ exchanger, settings: toCheckSettings(plan.unit), readings });
  const cleanings = truth.cleanings.map(({ at }) => at);
  const days = localDays(readings.time, 'Etc/UTC');
  const today = localDay(END, 'Etc/UTC');
  const trend = trendUnit({
    exchanger,
    daily: dailyFigures(evaluation, readings, { localDay: days, cleanings, exchanger }),
    cleanings: cleanings.map((at) => ({ at, localDay: localDay(at, 'Etc/UTC') })),
    asOf: END,
    todayLocalDay: today,
    horizonDays: 730,
  });
  const { p10Day, p50Day, p90Day } = trend.limits[0]!;
  const fromToday = (day: number | null) => (day === null ? Number.POSITIVE_INFINITY : day - today);
  const { crossesAt, crossingAgeDays } = truth.cycles.at(-1)!;
  return {
    p10: fromToday(p10Day),
    p50: fromToday(p50Day),
    p90: fromToday(p90Day),
    due: (crossesAt! - END) / MS_PER_DAY,
    life: crossingAgeDays!,
  };
}

describe('a held-out fleet', () => {
  it('is a valid fleet file with every arrangement, condensing steam and both systems of units', () => {
    const units = [1, 2, 3, 4, 5].flatMap((seed) => {
      const { fleet } = makeHeldOutFleet(seed);
      expect(fleetFileSchema.parse(fleet)).toEqual(fleet);
      return fleet.units;
    });
    expect(new Set(units.map(({ arrangement }) => arrangement.kind)).size).toBe(5);
    expect(new Set(units.map(({ design }) => design.hotIn.unit)).size).toBe(2);
    expect(units.some(({ hot }) => hot.fluid === 'steam')).toBe(true);
  });

  it('is the same for the same seed and another for another', () => {
    expect(makeHeldOutFleet(3, 10)).toEqual(makeHeldOutFleet(3, 10));
    expect(makeHeldOutFleet(4, 10).fleet).not.toEqual(makeHeldOutFleet(3, 10).fleet);
  });

  it('has its clean-by days found near the truth from ordinary sensors', () => {
    const found = makeHeldOutFleet(21).plans.map((plan, index) => projected(plan, index));
    const errors = found.map(({ p50, due, life }) => Math.abs(p50 - due) / life).sort((a, b) => a - b);
    expect(errors[errors.length >> 1]).toBeLessThan(0.05);
    // Of bands that hold the truth 4 times in 5, fewer than 12 in 20 would be a 1 in 100 chance.
    expect(found.filter(({ p10, p90, due }) => p10 <= due && due <= p90).length).toBeGreaterThanOrEqual(12);
  });
});
