import { describe, expect, it } from 'vitest';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { describeOutOfRange } from '@/lib/core/fluids/range';
import { readPublished } from '../support/published-data';
import { testChecks } from '../support/table-test';
import { waterChecks } from './checks/water';

const { cases } = readPublished<{
  cases: { liquid_grid: { rows: number[][] }; behaviour: { t_C: number; p_MPa: number }[] };
}>('iapws-water');

describe('IAPWS releases, and water and steam by formula and by table', () => {
  testChecks(waterChecks());

  it('of the liquid, 97 states', () => expect(cases.liquid_grid.rows).toHaveLength(97));
});

describe('liquid water as a stream', () => {
  it('leaves out a critical enhancement of conductivity that is below 0.13 % up to 180 °C', () => {
    for (const row of cases.liquid_grid.rows) {
      expect(Math.abs(row[6]! / row[7]! - 1)).toBeLessThan(1.3e-3);
    }
  });

  it('is not liquid above saturation: no number, and words that name fluid, value, range and remedy', () => {
    const [tooHot] = cases.behaviour;
    const water = makeFluid({ kind: 'water', pressure: tooHot!.p_MPa * 1e6 });
    expect(water.maximum).toBeCloseTo(99.6059, 4);
    for (const property of [
      water.specificHeat,
      water.enthalpy,
      water.density!,
      water.viscosity!,
      water.conductivity!,
    ]) {
      expect(property(tooHot!.t_C)).toBeNaN();
      expect(property(99.6)).toBeGreaterThan(0);
    }
    expect(describeOutOfRange(water, tooHot!.t_C)).toBe(
      'water at 0.1 MPa: 99.7 °C is outside 0 to 99.6 °C; if the stream is liquid there, state its absolute pressure: 0.11 MPa or more',
    );
  });

  it('has no properties below 0 °C, nor above 350 °C whatever its pressure', () => {
    const [, tooCold, farTooHot] = cases.behaviour;
    for (const { t_C, p_MPa } of [tooCold!, farTooHot!]) {
      const water = makeFluid({ kind: 'water', pressure: p_MPa * 1e6 });
      expect(water.enthalpy(t_C)).toBeNaN();
      expect(describeOutOfRange(water, t_C)).toContain(`${t_C} °C is outside 0 to`);
      expect(describeOutOfRange(water, t_C)).not.toContain('pressure');
    }
    expect(makeFluid({ kind: 'water', pressure: 20e6 }).maximum).toBe(350);
  });
});

describe('steam that condenses', () => {
  it('has a saturation temperature only where its pressure is stated', () => {
    expect(makeFluid({ kind: 'steam', pressure: null }).phaseChange!.saturationTemperature).toBeNull();
  });
});
