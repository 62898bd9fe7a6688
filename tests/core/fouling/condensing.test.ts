import { describe, expect, it } from 'vitest';
import { DEFAULT_CHECK_SETTINGS } from '@/lib/core/checks/check-settings';
import { reasonsOf } from '@/lib/core/checks/reasons';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { enthalpyDrop, saturationTemperature } from '@/lib/core/fouling/enthalpy-change';
import { evaluateReadings } from '@/lib/core/fouling/evaluate-readings';
import { sensorsOf } from '@/lib/core/fouling/evaluation-columns';
import { readingsOf, solveForward, waterUnit } from '../../support/forward-readings';

const DESIGN = { hotIn: 120, hotOut: 120, coldIn: 40, coldOut: 80, hotFlow: 1.9, coldFlow: 25, cleanU: 2500 };
const byTemperature = waterUnit({ hot: { kind: 'steam', pressure: null }, area: 26, design: DESIGN });
const byPressure = waterUnit({ hot: { kind: 'steam', pressure: 198_670 }, area: 26, design: DESIGN });
const evaluate = (exchanger: typeof byTemperature, readings: ReturnType<typeof readingsOf>) =>
  evaluateReadings({ exchanger, settings: DEFAULT_CHECK_SETTINGS, readings });

describe('a condensing hot side', () => {
  const state = solveForward(byTemperature, { ...DESIGN, fouling: 8e-5 });
  const steam = makeFluid({ kind: 'steam', pressure: null });
  const condensed = state.duty / enthalpyDrop(steam, 120, 120);

  it('is evaluated with Cr = 0: NTU = −ln(1 − ε), F = 1, and the truth comes back', () => {
    const readings = readingsOf([state]);
    readings.hotFlow[0] = Number.NaN;
    readings.hotOut[0] = Number.NaN;
    const result = evaluate(byTemperature, readings);
    expect(reasonsOf(result.reasons[0]!)).toEqual([]);
    expect(result.ntu[0]).toBeCloseTo(-Math.log1p(-result.effectiveness[0]!), 12);
    expect(result.correction[0]).toBeCloseTo(1, 9);
    expect(Math.abs(result.foulingResistance[0]! - 8e-5)).toBeLessThan(1e-10);
    expect(sensorsOf(result.inferred[0]!, SENSORS)).toEqual(['hotFlow']);
    expect(result.hotMassFlow[0]! / condensed).toBeCloseTo(1, 6);
  });

  it('takes the saturation temperature from the stated pressure where the inlet is not measured', () => {
    const fluid = makeFluid(byPressure.hot);
    const saturation = saturationTemperature(fluid, Number.NaN);
    expect(saturation).toBeCloseTo(120, 1);
    const truth = solveForward(byPressure, { ...DESIGN, fouling: 8e-5 });
    const readings = readingsOf([truth]);
    for (const sensor of ['hotIn', 'hotOut', 'hotFlow'] as const) readings[sensor][0] = Number.NaN;
    const result = evaluate(byPressure, readings);
    expect(result.reasons[0]).toBe(0);
    expect(Math.abs(result.foulingResistance[0]! - 8e-5)).toBeLessThan(1e-10);
  });

  it('a measured steam flow gives a balance to check', () => {
    // Each on its own: one after the other they would be a leap of load.
    const of = (hotFlow: number) => evaluate(byTemperature, readingsOf([{ ...state, hotFlow }]));
    expect(of(condensed).balance[0]).toBeCloseTo(0, 6);
    expect(of(condensed).reasons[0]).toBe(0);
    expect(reasonsOf(of(condensed * 0.7).reasons[0]!)).toEqual(['balance-not-closed']);
  });

  it('without the cold flow the steam flow stands in for it', () => {
    const readings = readingsOf([{ ...state, hotFlow: condensed, coldFlow: Number.NaN }]);
    const result = evaluate(byTemperature, readings);
    expect(result.reasons[0]).toBe(0);
    expect(result.coldMassFlow[0]! / state.coldFlow).toBeCloseTo(1, 6);
  });

  it('subcooled condensate gives off its sensible heat too; condensate that reads above saturation is saturated', () => {
    const saturated = enthalpyDrop(steam, 120, Number.NaN);
    expect(enthalpyDrop(steam, 120, 121)).toBe(saturated);
    expect(enthalpyDrop(steam, 120, 100) - saturated).toBeCloseTo(20 * 4230, -3);
    // Latent heat of water at 120 °C: 2202 kJ/kg (steam tables, to the digits usually printed).
    expect(saturated / 1000).toBeCloseTo(2202.1, 0);
  });

  it('needs a temperature or a pressure: without either the reading is missing', () => {
    const readings = readingsOf([{ ...state, hotIn: Number.NaN, hotOut: Number.NaN }]);
    expect(reasonsOf(evaluate(byTemperature, readings).reasons[0]!)).toEqual(['missing']);
  });

  it('the film of the condensing side is taken constant: clean U does not move with the steam flow', () => {
    const half = solveForward(byTemperature, { ...DESIGN, hotFlow: 0.5, fouling: 0 });
    const full = solveForward(byTemperature, { ...DESIGN, fouling: 0 });
    expect(half.cleanU).toBe(full.cleanU);
  });
});
