import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fluid, FluidSpec } from '@/lib/core/fluids/fluid';
import { integrate } from '@/lib/core/fluids/gauss-legendre';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { describeOutOfRange } from '@/lib/core/fluids/range';
import { saturationPressure, saturationTemperature } from '@/lib/core/fluids/saturation-line';

const CHECK = { seed: 20_250_611, numRuns: 1000 };

/** A few specifications of each kind; making tables for a thousand pressures would test nothing more. */
const SPECS: FluidSpec[] = [
  { kind: 'water', pressure: null },
  { kind: 'water', pressure: 2e6 },
  { kind: 'seawater', salinity: 0.035 },
  { kind: 'ethylene-glycol', massFraction: 0.35 },
  { kind: 'propylene-glycol', massFraction: 0.5 },
  { kind: 'oil', density: 870, characterisationFactor: 11.9, viscosity: null },
  { kind: 'air', pressure: null },
  {
    kind: 'custom',
    name: 'brine',
    properties: {
      temperatures: [-10, 5, 20, 60],
      specificHeat: [3100, 3150, 3180, 3300],
      density: [1250, 1244, 1238, 1215],
      viscosity: null,
      conductivity: null,
    },
  },
];

const anyFluid = fc.constantFrom(...SPECS).map(makeFluid);
const share = fc.double({ min: 0, max: 1, noNaN: true });
const inside = (fluid: Fluid, x: number) =>
  Math.min(fluid.maximum, fluid.minimum + x * (fluid.maximum - fluid.minimum));

describe('every single-phase fluid', () => {
  it('gains between two temperatures the integral of its specific heat', () => {
    fc.assert(
      fc.property(anyFluid, share, share, (fluid, x, y) => {
        const [from, to] = [inside(fluid, x), inside(fluid, y)];
        // Panels do not end at the corners of a custom table, where ten points are good to 1e-4.
        const tolerance = fluid.name === 'brine' ? 1e-4 : 1e-7;
        const gain = fluid.enthalpy(to) - fluid.enthalpy(from);
        const expected = integrate(fluid.specificHeat, from, to);
        expect(Math.abs(gain - expected)).toBeLessThanOrEqual(tolerance * Math.abs(expected) + 1e-6);
      }),
      CHECK,
    );
  });

  it('gains enthalpy as it warms, and has positive finite properties', () => {
    fc.assert(
      fc.property(anyFluid, share, share, (fluid, x, y) => {
        const [low, high] = [inside(fluid, Math.min(x, y)), inside(fluid, Math.max(x, y))];
        expect(fluid.enthalpy(high)).toBeGreaterThanOrEqual(fluid.enthalpy(low));
        for (const property of [fluid.specificHeat, fluid.viscosity, fluid.conductivity]) {
          const value = property?.(low) ?? 1;
          expect(value > 0 && value < Number.POSITIVE_INFINITY).toBe(true);
        }
      }),
      CHECK,
    );
  });

  it('has a number exactly where nothing is said against the temperature', () => {
    const temperature = fc.oneof(
      fc.double({ min: -300, max: 2500, noNaN: true }),
      fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
    );
    fc.assert(
      fc.property(anyFluid, temperature, (fluid, t) => {
        const said = describeOutOfRange(fluid, t);
        expect(Number.isFinite(fluid.specificHeat(t))).toBe(said === null);
        expect(Number.isFinite(fluid.enthalpy(t))).toBe(said === null);
        if (said !== null) expect(said.startsWith(fluid.name)).toBe(true);
      }),
      CHECK,
    );
  });
});

describe('the saturation line', () => {
  it('comes back to the temperature it started from', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 373.9, noNaN: true }), (t) => {
        expect(saturationTemperature(saturationPressure(t))).toBeCloseTo(t, 7);
      }),
      CHECK,
    );
  });
});
