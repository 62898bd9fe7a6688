import { describe, expect, it } from 'vitest';
import { cleanConductance, filmResistance } from '@/lib/core/clean/clean-conductance';
import { cleanReference, type Fluids, scaledFactors } from '@/lib/core/clean/clean-reference';
import { designConductance } from '@/lib/core/clean/design-conductance';
import type { Exchanger } from '@/lib/core/exchange/exchanger';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { constantFluid, waterUnit } from '../../support/forward-readings';

const fluidsOf = ({ hot, cold }: Exchanger): Fluids => ({ hot: makeFluid(hot), cold: makeFluid(cold) });
const referenceOf = (exchanger: Exchanger, scale = 1) =>
  cleanReference(exchanger, fluidsOf(exchanger), scaledFactors(scale));

describe('the clean reference', () => {
  const exchanger = waterUnit();
  const reference = referenceOf(exchanger);

  it('splits the clean resistance into hot film, wall and cold film by their shares', () => {
    expect(reference.cleanUDesign).toBe(2800);
    expect(reference.hot.resistance).toBeCloseTo(0.45 / 2800, 15);
    expect(reference.wall).toBeCloseTo(0.05 / 2800, 15);
    expect(reference.cold.resistance).toBeCloseTo(0.5 / 2800, 15);
  });

  it('gives back the stated conductance at the design point itself', () => {
    expect(cleanConductance(reference, 20, 25, 65, 32)).toBeCloseTo(2800, 9);
  });

  it('scales the whole clean resistance where it was learned', () => {
    expect(cleanConductance(referenceOf(exchanger, 1.25), 20, 25, 65, 32)).toBeCloseTo(2800 / 1.25, 9);
  });

  it('refuses a design point that is not possible', () => {
    const design = { ...exchanger.design, coldOut: 85, cleanU: null };
    expect(() => referenceOf({ ...exchanger, design })).toThrow(RangeError);
  });
});

describe('clean conductance away from the design point', () => {
  it('with constant properties moves with flow alone: half the hot flow, hand calculation', () => {
    const exchanger = waterUnit({ hot: constantFluid(4180), cold: constantFluid(4180) });
    const resistance = 0.05 / 2800 + (0.45 / 2800) * 0.5 ** -0.7 + 0.5 / 2800;
    expect(cleanConductance(referenceOf(exchanger), 10, 25, 65, 32)).toBeCloseTo(1 / resistance, 9);
  });

  it('moves a film by k^(2/3)·cp^(1/3)·μ^(1/3−n), each property at the stream mean temperature', () => {
    const exchanger = waterUnit();
    const { hot } = fluidsOf(exchanger);
    const { hot: film } = referenceOf(exchanger);
    const ratio = (of: (t: number) => number) => of(65) / of(40);
    const phi =
      ratio(hot.conductivity!) ** (2 / 3) *
      ratio(hot.specificHeat) ** (1 / 3) *
      ratio(hot.viscosity!) ** (1 / 3 - 0.7);
    const expected = film.resistance * (15 / 20) ** -0.7 * phi;
    expect(filmResistance(film, 15, 40) / expected).toBeCloseTo(1, 12);
    // Colder water is more viscous: its film resists more.
    expect(phi).toBeGreaterThan(1);
  });

  it('has no property correction where a property is not stated', () => {
    const properties = {
      temperatures: [20, 80],
      specificHeat: [4000, 4200],
      density: null,
      viscosity: [1e-3, 4e-4],
    };
    const hot = { kind: 'custom', name: 'broth', properties: { ...properties, conductivity: null } } as const;
    const { hot: film } = referenceOf(waterUnit({ hot }));
    expect(film.properties).toBeNull();
    expect(filmResistance(film, 20, 30)).toBe(film.resistance);
  });

  it('is not a number outside the fluid range', () => {
    const reference = referenceOf(waterUnit());
    expect(cleanConductance(reference, 20, 25, 65, -5)).toBeNaN();
  });
});

describe('the conductance that a design point implies', () => {
  it('is the mean duty over area and LMTD in counter-current flow: hand calculation', () => {
    const fluids = { hot: constantFluid(4000), cold: constantFluid(4000) };
    const design = {
      hotIn: 80,
      hotOut: 50,
      coldIn: 20,
      coldOut: 44,
      hotFlow: 20,
      coldFlow: 25,
      cleanU: null,
    };
    const exchanger = waterUnit({ ...fluids, design });
    // Qh = 2.4 MW = Qc; LMTD of 36 and 30 K.
    const expected = 2.4e6 / (6 / Math.log(36 / 30)) / 50;
    expect(designConductance(exchanger, fluidsOf(exchanger))).toBeCloseTo(expected, 8);
    expect(referenceOf(exchanger).cleanUDesign).toBeCloseTo(expected, 8);
  });

  it('takes the mean of both duties where they differ', () => {
    const fluids = { hot: constantFluid(4000), cold: constantFluid(4000) };
    const design = {
      hotIn: 80,
      hotOut: 50,
      coldIn: 20,
      coldOut: 44,
      hotFlow: 20.4,
      coldFlow: 24.5,
      cleanU: null,
    };
    const exchanger = waterUnit({ ...fluids, design });
    const expected = 2.4e6 / (6 / Math.log(36 / 30)) / 50;
    expect(designConductance(exchanger, fluidsOf(exchanger))).toBeCloseTo(expected, 8);
  });

  it('has Cr = 0 for a condensing side', () => {
    const design = {
      hotIn: 120,
      hotOut: 120,
      coldIn: 40,
      coldOut: 80,
      hotFlow: 1.9,
      coldFlow: 25,
      cleanU: null,
    };
    const exchanger = waterUnit({
      hot: { kind: 'steam', pressure: null },
      cold: constantFluid(4180),
      area: 26,
      design,
    });
    const steam = 1.9 * 2.2021e6;
    const duty = (steam + 25 * 4180 * 40) / 2;
    // UA = (Q/ΔTc)·ln(80/40); latent heat of steam at 120 °C 2202.1 kJ/kg (steam tables).
    const expected = ((duty / 40) * Math.log(2)) / 26;
    expect(designConductance(exchanger, fluidsOf(exchanger)) / expected).toBeCloseTo(1, 4);
  });
});
