import { describe, expect, it } from 'vitest';
import type { Exchanger, LossSettings } from '@/lib/core/exchange/exchanger';
import type { Outlook } from '@/lib/core/pipeline/outlook';
import { trendUnit } from '@/lib/core/pipeline/trend-unit';
import { dailyRecord, FIRST_DAY } from '../../support/daily-record';
import { DAY_MS, NO_LOSS_SETTINGS, solveForward, waterUnit } from '../../support/forward-readings';
import { ROUND_FLUID } from '../../support/losing-unit';

const RATE = 1e-6;
const NOISE = 2e-6;
const cleaning = (day: number) => ({ at: (FIRST_DAY + day) * DAY_MS, localDay: FIRST_DAY + day });
const unitWith = (losses: Partial<LossSettings> = {}, change: Partial<Exchanger> = {}) =>
  waterUnit({ hot: ROUND_FLUID, cold: ROUND_FLUID, losses: { ...NO_LOSS_SETTINGS, ...losses }, ...change });
const unit = unitWith();

type Story = {
  days?: number;
  fouling?: (day: number) => number;
  cleanings?: number[];
  drop?: (day: number) => number;
};

function trendOf(exchanger: Exchanger, story: Story = {}, horizonDays = 730) {
  const { days = 120, fouling = (day: number) => RATE * day, cleanings = [], drop } = story;
  const daily = dailyRecord(exchanger, { days, fouling, noise: NOISE, seed: 42 });
  if (drop) daily.coldPressureDrop.set(Array.from({ length: days }, (_, day) => drop(day)));
  const todayLocalDay = FIRST_DAY + days - 1;
  return trendUnit({
    exchanger,
    daily,
    cleanings: cleanings.map(cleaning),
    asOf: (todayLocalDay + 1) * DAY_MS - 1,
    todayLocalDay,
    horizonDays,
  });
}

const dutyAt = (fouling: number) => solveForward(unit, { ...unit.design, fouling }).duty;
const lostAt = (fouling: number) => dutyAt(0) - dutyAt(fouling);
const nearly = (value: number, truth: number) => Math.abs(value / truth - 1);

describe('the outlook of a unit left as it is', () => {
  const trend = trendOf(unit);
  const outlook = trend.outlook!;

  it('goes from today to the horizon by the week, as plain numbers', () => {
    expect(outlook.ageDays.slice(0, 3)).toEqual([0, 7, 14]);
    expect(outlook.ageDays.slice(-2)).toEqual([728, 730]);
    expect(JSON.parse(JSON.stringify(outlook))).toEqual(outlook);
  });

  it('loses what the forward model of the unit loses at the fouling to come', () => {
    for (const i of [0, 4, 13, 26]) {
      const truth = lostAt(RATE * (119 + outlook.ageDays[i]!));
      expect(nearly(outlook.lostDuty[i]!, truth)).toBeLessThan(0.04);
    }
    expect(nearly(outlook.duty, dutyAt(RATE * 113))).toBeLessThan(0.01);
  });

  it('says of any week what an outlook that ends there works out for it', () => {
    // The last age is always worked out; those between may lie on straight lines.
    for (const weeks of [1, 3, 10, 27, 53, 77]) {
      const upTo = trendOf(unit, {}, 7 * weeks).outlook!;
      for (const part of ['lostDuty', 'lostDutyAfter'] as const)
        expect(nearly(outlook[part][weeks]!, upTo[part].at(-1)!)).toBeLessThan(1e-3);
      for (const part of ['reached', 'reachedAfter'] as const)
        expect(Math.abs(outlook[part][weeks]! - upTo[part].at(-1)!)).toBeLessThan(1e-3);
    }
  });

  it('reaches the limit with the probabilities of its clean-by dates', () => {
    const { crossing, withinHorizon } = trend.limits[0]!;
    const quantiles = [
      [0.1, crossing!.p10!],
      [0.5, crossing!.p50!],
      [0.9, crossing!.p90!],
    ] as const;
    for (const [probability, age] of quantiles) {
      const isReached = outlook.ageDays.map((days) => 119 + days >= age);
      expect(outlook.reached.map((reached) => reached >= probability)).toEqual(isReached);
    }
    expect(outlook.reached.at(-1)).toBeCloseTo(withinHorizon!, 9);
  });

  it('knows nothing of pumps without a pressure drop', () => {
    expect(outlook.isPumpingKnown).toBe(false);
    expect(new Set([...outlook.pumping, ...outlook.pumpingAfter])).toEqual(new Set([0]));
  });

  it('is nothing where it is too early to project, or there are no data', () => {
    expect(trendOf(unit, { days: 5 }).outlook).toBeNull();
    expect(trendOf(unit, { days: 0 }).outlook).toBeNull();
  });
});

describe('the outlook after a cleaning', () => {
  /** Cleaned on days 100 and 200, each time down to 2e-5. */
  const sawtooth = (day: number) => 2e-5 + RATE * (day % 100);
  const outlook = trendOf(unit, { days: 280, fouling: sawtooth, cleanings: [100, 200] }).outlook!;

  it('begins at what the unit’s cleanings left', () => {
    expect(outlook.left).toMatchObject({ from: 'own-cleanings', cleanings: 2 });
    expect(Math.abs(outlook.left.value - 2e-5)).toBeLessThan(2 * NOISE);
    expect(nearly(outlook.lostDutyAfter[0]!, lostAt(outlook.left.value))).toBeLessThan(0.01);
  });

  it('loses what the forward model loses as it fouls again, and less than if left', () => {
    for (const i of [4, 8, 12]) {
      const truth = lostAt(2e-5 + RATE * outlook.ageDays[i]!);
      expect(nearly(outlook.lostDutyAfter[i]!, truth)).toBeLessThan(0.06);
      expect(outlook.lostDutyAfter[i]!).toBeLessThan(outlook.lostDuty[i]!);
    }
  });

  it('reaches the limit about when 180 days of growth are up, less surely than the running cycle', () => {
    const half = outlook.ageDays[outlook.reachedAfter.findIndex((reached) => reached >= 0.5)]!;
    expect(Math.abs(half - 180)).toBeLessThan(20);
    const width = (reached: number[]) => reached.filter((each) => each > 0.1 && each < 0.9).length;
    expect(width(outlook.reachedAfter)).toBeGreaterThan(width(outlook.reached));
  });

  it('begins where the running cycle did if nothing was ever cleaned', () => {
    const { left } = trendOf(unit, { fouling: (day) => 3e-5 + RATE * day }).outlook!;
    expect(left).toMatchObject({ from: 'nothing', cleanings: 0 });
    expect(Math.abs(left.value - 3e-5)).toBeLessThan(3 * NOISE);
  });

  it('begins where cycles began if a fall was never confirmed as a cleaning', () => {
    const { left } = trendOf(unit, { days: 180, fouling: sawtooth }).outlook!;
    expect(left).toMatchObject({ from: 'cycle-starts', cleanings: 1 });
    expect(Math.abs(left.value - 2e-5)).toBeLessThan(3 * NOISE);
  });
});

describe('the outlook of pumps', () => {
  it('grows in proportion to the fouling where a pressure drop is measured', () => {
    const measured = unitWith({ cleanPressureDrop: { hot: null, cold: 30_000 } });
    const outlook = trendOf(measured, { drop: (day) => 30_000 + 100 * day }).outlook!;
    // Recent drop: the median of the last 14 days, 100 Pa/day · 112.5; 25 kg/s of 1000 kg/m³ at 70 %.
    const now = (11_250 * 0.025) / 0.7;
    expect(outlook.isPumpingKnown).toBe(true);
    expect(nearly(outlook.pumping[0]!, now)).toBeLessThan(0.02);
    expect(nearly(outlook.pumping[13]!, (now * (119 + 91)) / 119)).toBeLessThan(0.04);
    expect(Math.abs(outlook.pumpingAfter[0]!)).toBeLessThan(0.05 * now);
  });

  it('reaches a limit of the pressure drop by its own growth', () => {
    const limits: Exchanger['limits'] = [{ kind: 'pressure-drop', stream: 'cold', above: 60_000 }];
    const outlook = trendOf(unitWith({}, { limits }), { drop: (day) => 30_000 + 100 * day }).outlook!;
    // 300 days after the record began, 181 from its last.
    const half = outlook.ageDays[outlook.reached.findIndex((reached) => reached >= 0.5)]!;
    expect(Math.abs(half - 181)).toBeLessThan(15);
    const halfAfter = outlook.ageDays[outlook.reachedAfter.findIndex((reached) => reached >= 0.5)]!;
    expect(Math.abs(halfAfter - 300)).toBeLessThan(30);
  });
});

describe('a unit whose outlet a control valve holds', () => {
  const held = unitWith({ heldOutlet: 'hot', pumpHead: { hot: null, cold: 2e5 } });
  const trend = trendOf(held);

  it('has lost no heat so far', () => {
    expect([trend.lostDuty, trend.energyLostSinceCleaning, trend.energyLostLast30Days]).toEqual([0, 0, 0]);
  });

  it('will lose pumping, and no duty while its valve can open further', () => {
    const { lostDuty, pumping, isPumpingKnown }: Outlook = trend.outlook!;
    expect(isPumpingKnown).toBe(true);
    expect(lostDuty[0]).toBe(0);
    expect(pumping[13]).toBeGreaterThan(pumping[0]!);
    expect(pumping[0]).toBeGreaterThan(0);
  });
});
