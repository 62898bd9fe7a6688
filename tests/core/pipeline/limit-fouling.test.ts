import { describe, expect, it } from 'vitest';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { limitFouling } from '@/lib/core/pipeline/limit-fouling';
import { recentConditions } from '@/lib/core/pipeline/recent-conditions';
import { makeDailyColumns } from '@/lib/core/series/daily-columns';
import { dailyRecord } from '../../support/daily-record';
import { constantFluid, solveForward, waterUnit } from '../../support/forward-readings';

const unit = waterUnit({ hot: constantFluid(4180), cold: constantFluid(4180) });
const daily = dailyRecord(unit, { days: 20, fouling: () => 1e-4, noise: 0, seed: 1 });
const fluids = { hot: makeFluid(unit.hot), cold: makeFluid(unit.cold) };
const recent = recentConditions(daily, fluids)!;
const outlet = (stream: 'hot' | 'cold', bound: { above?: number; below?: number }) =>
  limitFouling(
    unit,
    { kind: 'outlet-temperature', stream, above: bound.above ?? null, below: bound.below ?? null },
    recent,
  );

describe('recent conditions', () => {
  it('are medians of the last fourteen figures', () => {
    const changed = dailyRecord(unit, {
      days: 40,
      fouling: (day) => (day < 33 ? 3e-4 : 1e-4),
      noise: 0,
      seed: 1,
    });
    changed.hotIn.fill(70, 0, 26);
    expect(recentConditions(changed, fluids)!.hotIn).toBe(80);
    expect(recent.hotCapacityRate).toBeCloseTo(20 * 4180, 3);
    expect(recent.coldCapacityRate).toBeCloseTo(25 * 4180, 3);
  });

  it('are none without figures', () => {
    expect(recentConditions(makeDailyColumns(3), fluids)).toBeNull();
  });

  it('of a side that changes phase: no end to its capacity rate, and saturation at the stated pressure', () => {
    // 1.9867 bar: 120 °C; 1.0132 bar: 100 °C (steam tables).
    const steam = (pressure: number) => makeFluid({ kind: 'steam', pressure });
    const condensing = recentConditions(daily, { ...fluids, hot: steam(198_670) })!;
    expect(condensing.hotCapacityRate).toBe(Number.POSITIVE_INFINITY);
    expect(condensing.hotIn).toBeCloseTo(120, 1);
    const evaporating = recentConditions(daily, { ...fluids, cold: steam(101_325) })!;
    expect(evaporating.coldCapacityRate).toBe(Number.POSITIVE_INFINITY);
    expect(evaporating.coldIn).toBeCloseTo(100, 1);
  });
});

describe('the fouling that a limit allows', () => {
  it('of fouling resistance is the limit itself', () => {
    expect(limitFouling(unit, { kind: 'fouling-resistance', value: 3e-4 }, recent)).toBe(3e-4);
  });

  it('of cleanliness is (1/below − 1)/Uc', () => {
    expect(limitFouling(unit, { kind: 'cleanliness', below: 0.8 }, recent)).toBeCloseTo(0.25 / 2800, 12);
  });

  for (const fouling of [5e-5, 1e-4, 4e-4]) {
    it(`of an outlet is what the unit solved forward has there: Rf = ${fouling}`, () => {
      const state = solveForward(unit, { ...unit.design, fouling });
      expect(Math.abs(outlet('hot', { above: state.hotOut })! / fouling - 1)).toBeLessThan(1e-6);
      expect(Math.abs(outlet('cold', { below: state.coldOut })! / fouling - 1)).toBeLessThan(1e-6);
    });
  }

  it('is none where fouling moves the outlet away from its limit, or never that far', () => {
    expect(outlet('hot', { below: 45 })).toBeNull();
    expect(outlet('cold', { above: 60 })).toBeNull();
    expect(outlet('hot', { above: 80 })).toBeNull();
    expect(outlet('hot', { above: 90 })).toBeNull();
  });

  it('is zero or less where even the clean unit is beyond the limit', () => {
    const clean = solveForward(unit, { ...unit.design, fouling: 0 });
    expect(outlet('hot', { above: clean.hotOut - 1 })!).toBeLessThan(0);
    // Colder than the cold inlet: no conductance at all would do.
    expect(outlet('hot', { above: 15 })).toBeCloseTo(-1 / 2800, 9);
  });

  it('of the hot outlet of an evaporator is what it has there solved forward; of its vapour outlet there is none', () => {
    const design = {
      hotIn: 150,
      hotOut: 125,
      coldIn: 100,
      coldOut: 100,
      hotFlow: 20,
      coldFlow: 0.92,
      cleanU: 2000,
    };
    const evaporator = waterUnit({
      hot: constantFluid(4180),
      cold: { kind: 'steam', pressure: 101_325 },
      design,
    });
    const state = solveForward(evaporator, { ...design, fouling: 2e-4 });
    const atState = {
      hotIn: 150,
      coldIn: state.coldIn,
      hotCapacityRate: 20 * 4180,
      coldCapacityRate: Number.POSITIVE_INFINITY,
      cleanU: state.cleanU,
    };
    const limit = { kind: 'outlet-temperature', above: state.hotOut, below: null } as const;
    expect(limitFouling(evaporator, { ...limit, stream: 'hot' }, atState)! / 2e-4).toBeCloseTo(1, 6);
    const vapour = { kind: 'outlet-temperature', stream: 'cold', above: null, below: 99 } as const;
    expect(limitFouling(evaporator, vapour, atState)).toBeNull();
  });

  it('is not known for a pressure drop: that has a growth of its own', () => {
    expect(limitFouling(unit, { kind: 'pressure-drop', stream: 'hot', above: 5e4 }, recent)).toBeNull();
  });
});
