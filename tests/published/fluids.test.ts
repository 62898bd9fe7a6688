import { describe, expect, it } from 'vitest';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { oilSpecificHeat } from '@/lib/core/fluids/oil-properties';
import { expectPrinted } from '../support/printed';
import { testChecks } from '../support/table-test';
import { fluidCase, fluidRows } from './checks/fluid-data';
import { fluidChecks, milkFluid, milkRows } from './checks/fluids';

describe('fluids other than water', () => {
  testChecks(fluidChecks());

  it('are checked over the whole file', () => {
    expect(fluidRows('ethylene-glycol').length).toBeGreaterThan(60);
    expect(fluidRows('propylene-glycol').length).toBeGreaterThan(60);
    expect(fluidRows('seawater')).toHaveLength(32);
    expect(fluidRows('dry air')).toHaveLength(20);
  });
});

describe.each(['ethylene-glycol', 'propylene-glycol'] as const)('aqueous %s (Melinder 2010)', (kind) => {
  it('has no properties below the freezing point', () => {
    for (const [massFraction, freezing] of fluidCase(kind).freezing_point!.rows as [number, number][]) {
      const fluid = makeFluid({ kind, massFraction });
      expect(fluid.specificHeat(freezing - 0.01)).toBeNaN();
      expect(fluid.specificHeat(freezing + 0.01)).toBeGreaterThan(0);
    }
  });
});

describe('petroleum oils', () => {
  it('are the same as a stream', () => {
    const spec: FluidSpec = {
      kind: 'oil',
      density: 850,
      characterisationFactor: 11.8,
      viscosity: { temperatures: [40, 100], kinematicViscosities: [32e-6, 5.4e-6] },
    };
    const oil = makeFluid(spec);
    // The file's crude of 850 kg/m³; taken here as the class of product of that density.
    expectPrinted(oil.density!(40), 831.8321, { digits: 7, relative: 1e-3 });
    expectPrinted(oil.density!(90), 794.9288, { digits: 7, relative: 2e-3 });
    expectPrinted(oil.viscosity!(60) / oil.density!(60), 15.18589e-6, { digits: 7 });
    // Relative density is taken against water at 15 °C, 999.1 kg/m³.
    const [a, b] = oilSpecificHeat(850 / 999.1, 11.8);
    expect(oil.specificHeat(50)).toBeCloseTo(a + 50 * b, 9);
    expect(oil.enthalpy(50)).toBeCloseTo(50 * a + 1250 * b, 6);
  });
});

describe('milk stated as a table', () => {
  const rows = milkRows('whole milk');

  it('is the table at its points (Choi & Okos 1986) and within 0.1 % of a missing specific heat between', () => {
    const whole = milkFluid('whole milk', rows);
    const without40 = milkFluid(
      'whole milk',
      rows.filter((row) => row[1] !== 40),
    );
    for (const [, t, rho, cp, k] of rows) {
      expect(whole.density!(t)).toBe(rho);
      expect(whole.specificHeat(t)).toBe(cp);
      expect(whole.conductivity!(t)).toBe(k);
    }
    expect(Math.abs(without40.specificHeat(40) / 3892.27 - 1)).toBeLessThan(1e-3);
    expect(whole.viscosity).toBeNull();
  });
});
