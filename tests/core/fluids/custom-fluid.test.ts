import { describe, expect, it } from 'vitest';
import { makeCustomFluid } from '@/lib/core/fluids/custom-fluid';
import type { CustomProperties } from '@/lib/core/fluids/fluid';

const CONSTANT: CustomProperties = {
  temperatures: [20],
  specificHeat: [2100],
  density: [900],
  viscosity: null,
  conductivity: null,
};

const TABLE: CustomProperties = {
  temperatures: [0, 50, 200],
  specificHeat: [2000, 2200, 3100],
  density: [900, 870, 800],
  viscosity: [0.1, 0.01, 0.001],
  conductivity: [0.14, 0.135, 0.12],
};

describe('a fluid stated by constants', () => {
  const fluid = makeCustomFluid('quench oil', CONSTANT);

  it('is constant over a wide finite range, and its enthalpy is a straight line', () => {
    expect([fluid.minimum, fluid.maximum]).toEqual([-273.15, 2000]);
    expect(fluid.specificHeat(-40)).toBe(2100);
    expect(fluid.density!(500)).toBe(900);
    expect(fluid.enthalpy(90) - fluid.enthalpy(-10)).toBe(210_000);
    expect(fluid.specificHeat(2001)).toBeNaN();
  });

  it('leaves null what is not stated', () => {
    expect(fluid.viscosity).toBeNull();
    expect(fluid.conductivity).toBeNull();
    expect(fluid.phaseChange).toBeNull();
    expect(makeCustomFluid('x', { ...CONSTANT, density: null }).density).toBeNull();
  });
});

describe('a fluid stated by a table', () => {
  const fluid = makeCustomFluid('heat transfer oil', TABLE);

  it('is the table at its points and linear between them', () => {
    expect(TABLE.temperatures.map(fluid.specificHeat)).toEqual(TABLE.specificHeat);
    expect(fluid.specificHeat(125)).toBe(2650);
    expect(fluid.density!(25)).toBe(885);
    expect(fluid.viscosity!(25)).toBeCloseTo(0.055, 15);
    expect(fluid.conductivity!(200)).toBe(0.12);
  });

  it('has the exact integral of its specific heat as enthalpy', () => {
    expect(fluid.enthalpy(0)).toBe(0);
    expect(fluid.enthalpy(50)).toBe(2100 * 50);
    expect(fluid.enthalpy(200)).toBe(2100 * 50 + 2650 * 150);
    // From 50 to 125 °C the mean of 2200 and 2650.
    expect(fluid.enthalpy(125) - fluid.enthalpy(50)).toBe(2425 * 75);
  });

  it('is never extrapolated', () => {
    for (const property of [fluid.specificHeat, fluid.enthalpy, fluid.density!, fluid.viscosity!]) {
      expect(property(-0.001)).toBeNaN();
      expect(property(200.001)).toBeNaN();
      expect(property(Number.NaN)).toBeNaN();
    }
  });
});

describe('a table that cannot be is refused in words', () => {
  const refused: [string, Partial<CustomProperties>, string][] = [
    ['empty', { temperatures: [] }, 'glue: temperatures are empty; state one or more'],
    ['not ascending', { temperatures: [0, 50, 50] }, 'glue: temperature 50 °C after 50 is not ascending'],
    [
      'not a temperature',
      { temperatures: [Number.NaN, 50, 60] },
      'glue: temperature NaN °C is not ascending',
    ],
    ['unequal lengths', { specificHeat: [2000] }, 'glue: specific heat has 1 values for 3 temperatures'],
    ['a density of zero', { density: [900, 0, 800] }, 'glue: density 0 is not above 0'],
    [
      'an endless viscosity',
      { viscosity: [1, Number.POSITIVE_INFINITY, 1] },
      'glue: viscosity Infinity is not above 0',
    ],
    ['a conductivity below zero', { conductivity: [1, 1, -1] }, 'glue: conductivity -1 is not above 0'],
  ];

  it.each(refused)('%s', (_title, part, message) => {
    expect(() => makeCustomFluid('glue', { ...TABLE, ...part })).toThrow(new RangeError(message));
  });
});
