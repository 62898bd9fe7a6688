import { describe, expect, it } from 'vitest';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { DEFAULT_WATER_PRESSURE } from '@/lib/core/fluids/water';

const OIL: FluidSpec = {
  kind: 'oil',
  density: 820,
  characterisationFactor: 12,
  viscosity: { temperatures: [100, 40], kinematicViscosities: [1.1e-6, 2.9e-6] },
};

describe('a fluid from its specification', () => {
  const named: [FluidSpec, string, number, number][] = [
    [{ kind: 'water', pressure: null }, 'water at 0.5 MPa', 0, 151.836],
    [{ kind: 'water', pressure: 3e6 }, 'water at 3 MPa', 0, 233.858],
    [{ kind: 'steam', pressure: null }, 'steam', 0, 350],
    [{ kind: 'steam', pressure: 2e5 }, 'steam at 0.2 MPa', 0, 350],
    [{ kind: 'seawater', salinity: 0.035 }, 'seawater of 35 g/kg', 0, 80],
    [{ kind: 'seawater', salinity: 0.07 }, 'seawater of 70 g/kg', 0, 40],
    [{ kind: 'ethylene-glycol', massFraction: 0.3 }, 'ethylene glycol 30 %', -14.576, 100],
    [{ kind: 'propylene-glycol', massFraction: 0.5 }, 'propylene glycol 50 %', -32.193, 100],
    [OIL, 'oil of 820 kg/m³', 0, 200],
    [{ kind: 'air', pressure: null }, 'air at 0.1013 MPa', -50, 600],
  ];

  it.each(named)('%o is named and ranged', (spec, name, minimum, maximum) => {
    const fluid = makeFluid(spec);
    expect(fluid.name).toBe(name);
    expect(fluid.minimum).toBeCloseTo(minimum, 3);
    expect(fluid.maximum).toBeCloseTo(maximum, 3);
    expect(fluid.phaseChange === null).toBe(spec.kind !== 'steam');
  });

  it('is by default water at the documented pressure', () => {
    expect(makeFluid({ kind: 'water', pressure: DEFAULT_WATER_PRESSURE })).toMatchObject({
      name: makeFluid({ kind: 'water', pressure: null }).name,
    });
  });

  it('is made once for many units', () => {
    const first = makeFluid({ kind: 'water', pressure: 4.2e5 });
    expect(makeFluid({ kind: 'water', pressure: 4.2e5 })).toBe(first);
    expect(makeFluid({ kind: 'water', pressure: 4.3e5 })).not.toBe(first);
  });

  it('is made again after many others, with the same figures', () => {
    const first = makeFluid({ kind: 'ethylene-glycol', massFraction: 0.25 });
    for (let i = 0; i < 300; i++) makeFluid({ kind: 'ethylene-glycol', massFraction: 0.3 + i * 1e-4 });
    const again = makeFluid({ kind: 'ethylene-glycol', massFraction: 0.25 });
    expect(again).not.toBe(first);
    expect(again.specificHeat(33.3)).toBe(first.specificHeat(33.3));
  });
});

describe('an oil', () => {
  const oil = makeFluid(OIL);

  it('has a density up to 150 °C and a specific heat up to 200 °C', () => {
    expect(oil.density!(150)).toBeGreaterThan(700);
    expect(oil.density!(151)).toBeNaN();
    expect(oil.specificHeat(200)).toBeGreaterThan(2600);
    expect(oil.specificHeat(201)).toBeNaN();
  });

  it('has a viscosity between its two points, and beyond them only above 2 mm²/s', () => {
    expect(oil.viscosity!(100) / oil.density!(100)).toBeCloseTo(1.1e-6, 12);
    expect(oil.viscosity!(40) / oil.density!(40)).toBeCloseTo(2.9e-6, 12);
    expect(oil.viscosity!(20)).toBeGreaterThan(oil.viscosity!(40));
    expect(oil.viscosity!(101)).toBeNaN();
  });

  it('expands by the class of product of its density', () => {
    const expansion = (density: number) => {
      const fluid = makeFluid({ ...OIL, density } as FluidSpec);
      return 1 - fluid.density!(65) / fluid.density!(15);
    };
    expect(expansion(740)).toBeGreaterThan(0.06);
    expect(expansion(820)).toBeGreaterThan(0.04);
    expect(expansion(900)).toBeLessThan(0.04);
  });

  const viscosity = (temperatures: [number, number], kinematicViscosities: [number, number]): FluidSpec => ({
    ...(OIL as Extract<FluidSpec, { kind: 'oil' }>),
    viscosity: { temperatures, kinematicViscosities },
  });

  const refused: [string, FluidSpec, string][] = [
    ['one temperature twice', viscosity([40, 40], [3e-6, 2e-6]), 'oil: both viscosities are stated at 40 °C'],
    [
      'a temperature out of range',
      viscosity([40, 250], [3e-6, 2e-6]),
      'temperature of the viscosity 250 °C is outside',
    ],
    ['a viscosity in mm²/s', viscosity([40, 100], [32, 5.4]), 'oil: kinematic viscosity 32 m²/s is outside'],
    ['a viscosity that rises', viscosity([40, 100], [3e-6, 4e-6]), 'must fall as the temperature rises'],
    ['a viscosity that stays', viscosity([40, 100], [3e-6, 3e-6]), 'must fall as the temperature rises'],
  ];

  it.each(refused)('with %s is refused', (_title, spec, message) => {
    expect(() => makeFluid(spec)).toThrow(message);
  });
});

describe('condensing steam', () => {
  it('has its condensate on the saturation line, whose slope is 0.3 % above the specific heat at 150 °C at most', () => {
    const steam = makeFluid({ kind: 'steam', pressure: 4.76e5 });
    const slope = (steam.enthalpy(150.5) - steam.enthalpy(149.5)) / steam.specificHeat(150);
    expect(slope).toBeGreaterThan(1);
    expect(slope).toBeLessThan(1.003);
  });

  it('neglects a pressure effect on subcooled condensate below 0.03 % of the latent heat', () => {
    const steam = makeFluid({ kind: 'steam', pressure: 5e5 });
    const water = makeFluid({ kind: 'water', pressure: 5e5 });
    const latent = steam.phaseChange!.vapourEnthalpy(151.8) - steam.phaseChange!.liquidEnthalpy(151.8);
    for (const t of [20, 80, 140]) {
      expect(Math.abs(steam.enthalpy(t) - water.enthalpy(t)) / latent).toBeLessThan(3e-4);
    }
  });
});
