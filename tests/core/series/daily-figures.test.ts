import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { REASON_BIT, REASONS } from '@/lib/core/checks/reasons';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { dailyFigures } from '@/lib/core/series/daily-figures';
import { dailyUncertainty } from '@/lib/core/series/daily-uncertainty';
import { PRESSURE_DROP_EXPONENT, pressureDropAtReference } from '@/lib/core/series/pressure-drop';
import { median } from '@/lib/core/stats/quantile';
import {
  breathingStates,
  DAY_MS,
  EPOCH,
  HOUR_MS,
  readingsOf,
  waterUnit,
  withNoise,
} from '../../support/forward-readings';

const exchanger = waterUnit();
const DAYS = 6;
const states = breathingStates(exchanger, DAYS * 24, (hour) => (hour < 60 ? 2e-4 : 1e-5));

function day(change: (reasons: Uint32Array) => void = () => {}, cleanings: number[] = []) {
  const readings = withNoise(readingsOf(states), exchanger, 77);
  readings.hotPressureDrop = readings.hotFlow.map((flow) => 40_000 * (flow / 20) ** 1.8);
  const evaluation = evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });
  change(evaluation.reasons);
  const localDay = Int32Array.from(readings.time, (time) => Math.floor((time - 3 * HOUR_MS) / DAY_MS));
  return {
    readings,
    evaluation,
    localDay,
    daily: dailyFigures(evaluation, readings, { localDay, cleanings, exchanger }),
  };
}

describe('daily figures', () => {
  it('are medians of the accepted readings of each local day', () => {
    const { daily, evaluation, localDay } = day();
    expect([...daily.day]).toEqual([...new Set(localDay)]);
    expect([...daily.readings]).toEqual([3, 24, 24, 24, 24, 24, 21]);
    const second = [...localDay.keys()].filter((i) => localDay[i] === daily.day[1]);
    expect(daily.foulingResistance[1]).toBe(median(second.map((i) => evaluation.foulingResistance[i]!)));
    expect(daily.firstAccepted[1]).toBe(EPOCH + 3 * HOUR_MS);
    expect(daily.lastAccepted[1]).toBe(EPOCH + 26 * HOUR_MS);
  });

  it('leave out readings with a reason and name the day reason that left out most', () => {
    const { daily } = day((reasons) => {
      reasons[5] = REASON_BIT.spike;
      reasons.fill(REASON_BIT['frozen-sensor'], 10, 14);
    });
    expect(daily.accepted[1]).toBe(19);
    expect(REASONS[daily.worstReason[1]!]).toBe('frozen-sensor');
    expect(daily.worstReason[2]).toBe(-1);
  });

  it('count the readings of a unit at rest apart, and name rest as the reason only where there is no other', () => {
    const { daily } = day((reasons) => {
      reasons[5] = REASON_BIT.spike;
      reasons.fill(REASON_BIT['unit-off'], 10, 14);
      reasons.fill(REASON_BIT['unit-off'], 30, 40);
    });
    expect([...daily.off.subarray(0, 3)]).toEqual([0, 4, 10]);
    expect(REASONS[daily.worstReason[1]!]).toBe('spike');
    expect(REASONS[daily.worstReason[2]!]).toBe('unit-off');
  });

  it('are not a number on a day without accepted readings', () => {
    const { daily } = day((reasons) => reasons.fill(REASON_BIT.missing, 27, 51));
    expect(daily.accepted[2]).toBe(0);
    expect(daily.foulingResistance[2]).toBeNaN();
    expect(daily.firstAccepted[2]).toBeNaN();
    expect(daily.lostDuty[2]).toBeNaN();
  });

  it('on the day of a cleaning count only readings after it', () => {
    const cleaning = EPOCH + 60 * HOUR_MS;
    expect(day().daily.foulingResistance[3]).toBeGreaterThan(0);
    const { daily } = day(undefined, [cleaning - HOUR_MS, cleaning]);
    expect(daily.firstAccepted[3]).toBe(cleaning);
    expect(daily.foulingResistance[3]).toBeLessThan(5e-5);
    expect(daily.foulingResistance[2]).toBeGreaterThan(1e-4);
    expect(daily.accepted[3]).toBe(24);
  });

  it('on the day of a cleaning fall back on readings before it where none after is accepted', () => {
    const cleaning = EPOCH + 60 * HOUR_MS;
    const { daily } = day((reasons) => reasons.fill(REASON_BIT['unit-off'], 60, 75), [cleaning]);
    expect(daily.foulingResistance[3]).toBeGreaterThan(1e-4);
    expect(daily.lastAccepted[3]).toBe(cleaning - HOUR_MS);
  });

  it('scale the pressure drop to the design flow, and say nothing where it is not measured', () => {
    const { daily } = day();
    for (const value of daily.hotPressureDrop) expect(Math.abs(value / 40_000 - 1)).toBeLessThan(0.02);
    expect(daily.coldPressureDrop.every((value) => Number.isNaN(value))).toBe(true);
    expect(pressureDropAtReference(40_000, 10 / 20, PRESSURE_DROP_EXPONENT)).toBeCloseTo(
      40_000 * 2 ** 1.8,
      6,
    );
  });

  it('refuse columns of unequal length', () => {
    const { evaluation, readings } = day();
    const input = { localDay: new Int32Array(3), cleanings: [], exchanger };
    expect(() => dailyFigures(evaluation, readings, input)).toThrow(RangeError);
  });
});

describe('the uncertainty of a daily figure', () => {
  it('shrinks with the readings down to its systematic part, and never below it', () => {
    const of = (count: number) => dailyUncertainty({ combined: 5, systematic: 3, scatter: 4, count });
    expect(of(1)).toBeCloseTo(5, 12);
    expect(of(24)).toBeCloseTo(Math.sqrt(9 + (16 * Math.PI) / 48), 12);
    expect(of(1e9)).toBeCloseTo(3, 6);
  });

  it('goes by what the day shows where that is more than the sensors state, from three readings on', () => {
    const of = (count: number) => dailyUncertainty({ combined: 1, systematic: 0, scatter: 10, count });
    expect(of(2)).toBeCloseTo(1 / Math.sqrt(4 / Math.PI), 12);
    expect(of(24)).toBeCloseTo(10 / Math.sqrt(48 / Math.PI), 12);
  });

  it('covers the true error of the median on simulated days', () => {
    const { daily } = day();
    const late = [...daily.day.keys()].filter((row) => row >= 4);
    for (const row of late) {
      // Only random errors were drawn.
      const random = Math.sqrt(
        daily.foulingResistanceUncertainty[row]! ** 2 - daily.foulingResistanceSystematic[row]! ** 2,
      );
      expect(Math.abs(daily.foulingResistance[row]! - 1e-5)).toBeLessThan(4 * random);
    }
  });
});
