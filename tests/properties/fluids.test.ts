import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Fluid, FluidSpec, Property } from '@/lib/core/fluids/fluid';
import { integrate } from '@/lib/core/fluids/gauss-legendre';
import { makeFluid } from '@/lib/core/fluids/make-fluid';
import { describeOutOfRange } from '@/lib/core/fluids/range';
import { saturationPressure, saturationTemperature } from '@/lib/core/fluids/saturation-line';

const CHECK = { seed: 20_250_611, numRuns: 1000 };
const STATES = { seed: 20_260_401, numRuns: 100_000 };

/** A few specifications of each kind; making tables for a thousand pressures would test nothing more. */
const TABULATED: FluidSpec[] = [
  { kind: 'water', pressure: null },
  { kind: 'water', pressure: 2e4 },
  { kind: 'water', pressure: 2e6 },
  { kind: 'water', pressure: 50e6 },
  { kind: 'seawater', salinity: 0.006 },
  { kind: 'seawater', salinity: 0.035 },
  { kind: 'seawater', salinity: 0.12 },
  { kind: 'ethylene-glycol', massFraction: 0.1 },
  { kind: 'ethylene-glycol', massFraction: 0.35 },
  { kind: 'propylene-glycol', massFraction: 0.5 },
  { kind: 'propylene-glycol', massFraction: 0.6 },
  { kind: 'air', pressure: null },
  { kind: 'air', pressure: 5e6 },
];
const STEAM: FluidSpec[] = [
  { kind: 'steam', pressure: null },
  { kind: 'steam', pressure: 3e5 },
];

const share = fc.double({ min: 0, max: 1, noNaN: true });
const between = (least: number, greatest: number) => share.map((x) => least + x * (greatest - least));

const oil = fc
  .record({
    density: between(653, 1075),
    characterisationFactor: between(10, 13),
    kinematicViscosities: fc.tuple(between(5e-6, 5e-4), between(0.1, 0.9)),
    isKnown: fc.boolean(),
  })
  .map(({ density, characterisationFactor, kinematicViscosities: [thick, ratio], isKnown }): FluidSpec => {
    const kinematicViscosities: [number, number] = [thick, Math.max(5e-7, thick * ratio)];
    const viscosity = isKnown ? { temperatures: [40, 100] as [number, number], kinematicViscosities } : null;
    return { kind: 'oil', density, characterisationFactor, viscosity };
  });

const row = fc.record({
  step: between(1, 60),
  specificHeat: between(800, 4500),
  density: between(500, 2000),
  viscosity: between(1e-4, 2),
  conductivity: between(0.05, 2),
});
const vaporisation = fc.option(
  between(5e4, 2.5e6).map((latentHeat) => ({ latentHeat, saturationTemperature: null })),
);
const custom = fc
  .tuple(fc.array(row, { minLength: 1, maxLength: 8 }), vaporisation)
  .map(([rows, boils]): FluidSpec => {
    let at = -60;
    return {
      kind: 'custom',
      name: 'own',
      vaporisation: boils,
      properties: {
        temperatures: rows.map(({ step }) => {
          at += step;
          return at;
        }),
        specificHeat: rows.map(({ specificHeat }) => specificHeat),
        density: rows.map(({ density }) => density),
        viscosity: rows.map(({ viscosity }) => viscosity),
        conductivity: rows.map(({ conductivity }) => conductivity),
      },
    };
  });

/** A parabola through positive values at both ends that cannot fall to zero between them. */
const polynomial = fc
  .tuple(
    between(-80, 50),
    between(5, 200),
    between(900, 4500),
    between(-0.8, 4),
    between(0, 0.02),
    vaporisation,
  )
  .map(([minimum, span, start, slope, bend, boils]): FluidSpec => {
    // c(t) = start + slope·(t − minimum) + bend·(t − minimum)², multiplied out.
    const coefficients = [start - slope * minimum + bend * minimum ** 2, slope - 2 * bend * minimum, bend];
    const scaled = (factor: number) => coefficients.map((coefficient) => coefficient * factor);
    return {
      kind: 'polynomial',
      name: 'own by polynomials',
      vaporisation: boils,
      properties: {
        minimum,
        maximum: minimum + span,
        specificHeat: coefficients,
        density: scaled(0.3),
        viscosity: scaled(1e-6),
        conductivity: scaled(1e-4),
      },
    };
  });

const listed = (specs: FluidSpec[]) => fc.constantFrom(...specs.map(makeFluid));
const singlePhase = fc.oneof(
  { weight: 3, arbitrary: listed(TABULATED) },
  { weight: 1, arbitrary: oil.map(makeFluid) },
  { weight: 1, arbitrary: custom.map(makeFluid) },
  { weight: 1, arbitrary: polynomial.map(makeFluid) },
);
const BRINE: Extract<FluidSpec, { kind: 'custom' }> = {
  kind: 'custom',
  name: 'brine',
  properties: {
    temperatures: [-10, 5, 20, 60],
    specificHeat: [3100, 3150, 3180, 3300],
    density: [1250, 1244, 1238, 1215],
    viscosity: null,
    conductivity: null,
  },
};
/** Fluids that the general quadrature can follow. */
const smooth = fc.oneof(listed([...TABULATED, BRINE]), oil.map(makeFluid), polynomial.map(makeFluid));
const anyFluid = fc.oneof({ weight: 6, arbitrary: singlePhase }, { weight: 1, arbitrary: listed(STEAM) });

const inside = (fluid: Fluid, x: number) =>
  Math.min(fluid.maximum, fluid.minimum + x * (fluid.maximum - fluid.minimum));
const isSound = (value: number) => value > 0 && value < Number.POSITIVE_INFINITY;

/** Of an oil density and viscosity end sooner than specific heat and enthalpy: see `makeOil`. */
const OIL_DENSITY_MAXIMUM = 150;
function mayBeUnknown(fluid: Fluid, property: 'density' | 'viscosity' | 'conductivity', t: number): boolean {
  if (!fluid.name.startsWith('oil') || property === 'conductivity') return false;
  if (t > OIL_DENSITY_MAXIMUM) return true;
  // Thinner than 2 mm²/s is known only between the two points, 40 and 100 °C.
  return property === 'viscosity' && t > 100;
}

/** What is wrong with a fluid at a temperature of its range; null where nothing is. */
function faultInside(fluid: Fluid, t: number): string | null {
  if (!isSound(fluid.specificHeat(t))) return 'specificHeat';
  if (!Number.isFinite(fluid.enthalpy(t))) return 'enthalpy';
  for (const name of ['density', 'viscosity', 'conductivity'] as const) {
    const value = fluid[name]?.(t) ?? 1;
    if (!isSound(value) && !(Number.isNaN(value) && mayBeUnknown(fluid, name, t))) return name;
  }
  const { phaseChange } = fluid;
  if (phaseChange === null) return null;
  return isSound(phaseChange.vapourEnthalpy(t) - phaseChange.liquidEnthalpy(t)) ? null : 'latent heat';
}

function properties(fluid: Fluid): Property[] {
  const { specificHeat, enthalpy, density, viscosity, conductivity, phaseChange } = fluid;
  const all = [specificHeat, enthalpy, density, viscosity, conductivity];
  return [...all, phaseChange?.vapourEnthalpy, phaseChange?.liquidEnthalpy].filter((one) => one != null);
}

describe('over 100,000 random states, every fluid', () => {
  it('has finite properties above zero within its range, ends included', () => {
    const place = fc.oneof({ weight: 18, arbitrary: share }, { weight: 1, arbitrary: fc.constantFrom(0, 1) });
    fc.assert(
      fc.property(anyFluid, place, (fluid, x) => faultInside(fluid, inside(fluid, x)) === null),
      STATES,
    );
  });

  it('has no number outside its range, never an extrapolation', () => {
    const beyond = fc.oneof(between(1e-6, 1), between(1, 1e4), fc.constant(Number.POSITIVE_INFINITY));
    fc.assert(
      fc.property(anyFluid, beyond, fc.boolean(), (fluid, distance, isAbove) => {
        const t = isAbove ? fluid.maximum + distance : fluid.minimum - distance;
        return properties(fluid).every((property) => Number.isNaN(property(t)));
      }),
      STATES,
    );
  });

  it('gains enthalpy as it warms', () => {
    fc.assert(
      fc.property(anyFluid, share, share, (fluid, x, y) => {
        const [low, high] = [inside(fluid, Math.min(x, y)), inside(fluid, Math.max(x, y))];
        // Nearer than 1e-6 K rounding decides.
        return high - low < 1e-6 || fluid.enthalpy(high) > fluid.enthalpy(low);
      }),
      STATES,
    );
  });

  it('has, in a single phase, its specific heat as the slope of its enthalpy', () => {
    const STEP = 1e-3;
    fc.assert(
      fc.property(singlePhase, share, (fluid, x) => {
        const t = Math.min(Math.max(inside(fluid, x), fluid.minimum + STEP), fluid.maximum - STEP);
        const slope = (fluid.enthalpy(t + STEP) - fluid.enthalpy(t - STEP)) / (2 * STEP);
        // Of a corner of a custom table the slope sees both sides; 1e-5 K·J/kg covers rounding of the difference.
        const [before, after] = [fluid.specificHeat(t - STEP), fluid.specificHeat(t + STEP)];
        const tolerance = Math.abs(after - before) / 2 + 1e-6 * slope;
        return Math.abs(slope - (before + after) / 2) <= tolerance;
      }),
      STATES,
    );
  });
});

describe('every single-phase fluid', () => {
  it('gains between two temperatures the integral of its specific heat', () => {
    fc.assert(
      fc.property(smooth, share, share, (fluid, x, y) => {
        const [from, to] = [inside(fluid, x), inside(fluid, y)];
        // Panels do not end at the corners of a custom table, where ten points are good to 1e-4.
        const tolerance = fluid.name === BRINE.name ? 1e-4 : 1e-7;
        const gain = fluid.enthalpy(to) - fluid.enthalpy(from);
        const expected = integrate(fluid.specificHeat, from, to);
        expect(Math.abs(gain - expected)).toBeLessThanOrEqual(tolerance * Math.abs(expected) + 1e-6);
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
      fc.property(singlePhase, temperature, (fluid, t) => {
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
