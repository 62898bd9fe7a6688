import { describe, expect, it } from 'vitest';
import { makeCustomFluid } from '@/lib/core/fluids/custom-fluid';
import type { CustomProperties, FluidSpec } from '@/lib/core/fluids/fluid';
import { changesPhase, makeFluid } from '@/lib/core/fluids/make-fluid';
import { vaporising } from '@/lib/core/fluids/vaporising';

const LIQUID: CustomProperties = {
  temperatures: [-40, 60],
  specificHeat: [2100, 2500],
  density: [1300, 1100],
  viscosity: null,
  conductivity: null,
};
const liquid = makeCustomFluid('solvent', LIQUID);

describe('a stream', () => {
  it('is known to change phase from what it is stated to carry', () => {
    const custom: FluidSpec = { kind: 'custom', name: 'solvent', properties: LIQUID };
    const vaporisation = { latentHeat: 3.2e5, saturationTemperature: null };
    expect(changesPhase({ kind: 'steam', pressure: null })).toBe(true);
    expect(changesPhase({ ...custom, vaporisation })).toBe(true);
    expect(changesPhase(custom)).toBe(false);
    expect(changesPhase({ ...custom, vaporisation: null })).toBe(false);
    expect(changesPhase({ kind: 'water', pressure: null })).toBe(false);
  });
});

describe('a fluid the user describes that changes phase', () => {
  const boiling = vaporising(liquid, { latentHeat: 3.2e5, saturationTemperature: 41 });

  it('keeps its liquid properties, and its vapour lies a latent heat above its liquid', () => {
    expect(boiling.phaseChange!.saturationTemperature).toBe(41);
    for (const t of [-40, 0, 41, 60]) {
      expect(boiling.enthalpy(t)).toBe(liquid.enthalpy(t));
      expect(boiling.phaseChange!.liquidEnthalpy(t)).toBe(liquid.enthalpy(t));
      expect(boiling.phaseChange!.vapourEnthalpy(t) - liquid.enthalpy(t)).toBeCloseTo(3.2e5, 8);
    }
  });

  it('has no vapour outside the range of its liquid', () => {
    expect([boiling.phaseChange!.vapourEnthalpy(-41), boiling.phaseChange!.vapourEnthalpy(61)]).toEqual([
      Number.NaN,
      Number.NaN,
    ]);
  });

  it('condenses at the temperature of its inlet sensor where none is stated', () => {
    const { phaseChange } = vaporising(liquid, { latentHeat: 3.2e5, saturationTemperature: null });
    expect(phaseChange!.saturationTemperature).toBeNull();
  });

  it('is the liquid itself without a latent heat', () => {
    expect(vaporising(liquid, null)).toBe(liquid);
  });

  it.each([
    [0, 41, 'solvent: latent heat 0 J/kg is not above 0'],
    [Number.NaN, 41, 'solvent: latent heat NaN J/kg is not above 0'],
    ...[80, 58.5, -39, Number.NaN].map((at): [number, number, string] => [
      3e5,
      at,
      `solvent: the liquid properties are stated from -40 to 60 °C; they must reach 2 K to either side of the saturation temperature, ${at} °C`,
    ]),
  ])('is refused with a latent heat of %d at %d °C', (latentHeat, saturationTemperature, message) => {
    expect(() => vaporising(liquid, { latentHeat, saturationTemperature })).toThrow(new RangeError(message));
  });
});

// Steam tables (IAPWS): at 0.101325 MPa water boils at 99.974 °C, r = 2256.5 kJ/kg; the liquid's cp there is 4.216 kJ/(kg·K).
it.each([
  [
    'constants',
    {
      kind: 'custom',
      name: 'water by constants',
      properties: {
        temperatures: [20],
        specificHeat: [4205],
        density: null,
        viscosity: null,
        conductivity: null,
      },
      vaporisation: { latentHeat: 2256.5e3, saturationTemperature: 99.974 },
    },
  ],
  [
    'a polynomial',
    {
      kind: 'polynomial',
      name: 'water by a line',
      properties: {
        minimum: 60,
        maximum: 120,
        specificHeat: [4157, 0.6],
        density: null,
        viscosity: null,
        conductivity: null,
      },
      vaporisation: { latentHeat: 2256.5e3, saturationTemperature: 99.974 },
    },
  ],
] as [string, FluidSpec][])(
  'water typed in as %s gives the heat of steam that condenses and cools by 20 K',
  (_how, spec) => {
    const heat = (of: FluidSpec) => {
      const fluid = makeFluid(of);
      const at = fluid.phaseChange!.saturationTemperature!;
      return fluid.phaseChange!.vapourEnthalpy(at) - fluid.enthalpy(at - 20);
    };
    expect(heat(spec) / heat({ kind: 'steam', pressure: 101_325 })).toBeCloseTo(1, 4);
  },
);
