import { describe, expect, it } from 'vitest';
import type { FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { describeOutOfRange, inMegapascal, requireWithin, within } from '@/lib/core/fluids/range';

it('a property confined to a range is itself inside, ends included, and not a number outside', () => {
  const property = within(0, 10)((t) => 2 * t);
  expect([property(0), property(10)]).toEqual([0, 20]);
  expect([property(-1e-9), property(10.001), property(Number.NaN)]).toEqual([
    Number.NaN,
    Number.NaN,
    Number.NaN,
  ]);
});

it('a pressure is said in megapascal with four digits', () => {
  expect(inMegapascal(101_325)).toBe('0.1013 MPa');
  expect(inMegapascal(20e6)).toBe('20 MPa');
});

describe('a specification that cannot be is refused in words that name fluid, parameter, value and range', () => {
  const impossible: [FluidSpec, string][] = [
    [
      { kind: 'ethylene-glycol', massFraction: 0.9 },
      'ethylene glycol: mass fraction 0.9 is outside 0 to 0.6',
    ],
    [
      { kind: 'propylene-glycol', massFraction: -0.1 },
      'propylene glycol: mass fraction -0.1 is outside 0 to 0.6',
    ],
    [{ kind: 'seawater', salinity: 35 }, 'seawater: salinity 35 kg/kg is outside 0 to 0.12 kg/kg'],
    [{ kind: 'water', pressure: 2e8 }, 'water: pressure 200 MPa is outside 0.0006112 MPa to 100 MPa'],
    [{ kind: 'water', pressure: Number.NaN }, 'water: pressure NaN MPa is outside 0.0006112 MPa to 100 MPa'],
    [{ kind: 'steam', pressure: 17e6 }, 'steam: pressure 17 MPa is outside 0.0006112 MPa to 16.53 MPa'],
    [{ kind: 'air', pressure: 1e7 }, 'air: pressure 10 MPa is outside 0.001 MPa to 5 MPa'],
    [
      { kind: 'oil', density: 1200, characterisationFactor: 12, viscosity: null },
      'oil: density at 15 °C 1200 kg/m³ is outside 653 to 1075 kg/m³',
    ],
    [
      { kind: 'oil', density: 850, characterisationFactor: 14, viscosity: null },
      'oil: characterisation factor 14 is outside 10 to 13',
    ],
  ];

  it.each(impossible)('%o', (spec, message) => {
    expect(() => makeFluid(spec)).toThrow(new RangeError(message));
  });

  it('and one at the very limit is accepted', () => {
    expect(() => requireWithin('x', { parameter: 'y', value: 1, unit: '' }, [0, 1])).not.toThrow();
    expect(makeFluid({ kind: 'ethylene-glycol', massFraction: 0.6 }).minimum).toBeCloseTo(-51.201, 3);
  });
});

describe('a temperature outside the range is described', () => {
  const water = makeFluid({ kind: 'water', pressure: null });

  it('by fluid, value, range and the pressure that would help', () => {
    expect(describeOutOfRange(water, 160)).toBe(
      'water at 0.5 MPa: 160 °C is outside 0 to 151.8 °C; if the stream is liquid there, state its absolute pressure: 0.62 MPa or more',
    );
  });

  it('with a remedy that works', () => {
    for (let t = 152; t <= 349; t += 3.7) {
      const pressure = Number(/([\d.]+) MPa or more$/.exec(describeOutOfRange(water, t)!)![1]) * 1e6;
      expect(makeFluid({ kind: 'water', pressure }).specificHeat(t)).toBeGreaterThan(4000);
    }
  });

  it('without a remedy where none is known', () => {
    expect(describeOutOfRange(water, -3.1372)).toBe('water at 0.5 MPa: -3.14 °C is outside 0 to 151.8 °C');
    expect(describeOutOfRange(water, 360)).toBe('water at 0.5 MPa: 360 °C is outside 0 to 151.8 °C');
    const glycol = makeFluid({ kind: 'ethylene-glycol', massFraction: 0.3 });
    expect(describeOutOfRange(glycol, -20)).toBe('ethylene glycol 30 %: -20 °C is outside -14.5 to 100 °C');
  });

  it('as not a number where it is none, and not at all where all is well', () => {
    expect(describeOutOfRange(water, Number.NaN)).toBe('water at 0.5 MPa: the temperature is not a number');
    expect(describeOutOfRange(water, 151.8)).toBeNull();
    expect(describeOutOfRange(water, 0)).toBeNull();
  });
});
