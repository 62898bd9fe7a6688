import { makeAir } from './air';
import { makeCustomFluid } from './custom-fluid';
import type { Fluid, FluidSpec } from './fluid';
import { makeGlycol } from './glycol';
import { ETHYLENE_GLYCOL, PROPYLENE_GLYCOL } from './glycol-tables';
import { makeOil } from './oil';
import { makePolynomialFluid } from './polynomial-fluid';
import { makeSeawater } from './seawater';
import { makeSteam } from './steam';
import { tabulate } from './tabulate';
import { vaporising } from './vaporising';
import { makeWater } from './water';

/** Tables kept for the next unit with the same fluid: a fleet has many units and few fluids. */
const MOST_KEPT = 256;
const kept = new Map<string, Fluid>();

/**
 * A fluid ready to evaluate in a loop: by tables of its formulas (`tabulate`); oils and custom fluids by the formulas.
 *
 * @param spec what the stream carries, SI units
 * @returns properties over temperature [°C]: specific heat [J/(kg·K)], enthalpy [J/kg], density [kg/m³], viscosity
 *          [Pa·s], conductivity [W/(m·K)]; NaN outside `minimum` to `maximum`
 * @range  as of each fluid; RangeError naming fluid, parameter, value and allowed range for an impossible specification
 * @source as of each fluid: `makeWater`, `makeSteam`, `makeSeawater`, `makeGlycol`, `makeOil`, `makeAir`, `makeCustomFluid`,
 *         `makePolynomialFluid`, `vaporising`
 * @check  tests/published/fluids.test.ts
 */
export function makeFluid(spec: FluidSpec): Fluid {
  switch (spec.kind) {
    case 'water':
      return keep(`water ${spec.pressure}`, () => makeWater(spec.pressure));
    case 'steam':
      return keep(`steam ${spec.pressure}`, () => makeSteam(spec.pressure));
    case 'seawater':
      return keep(`seawater ${spec.salinity}`, () => makeSeawater(spec.salinity));
    case 'air':
      return keep(`air ${spec.pressure}`, () => makeAir(spec.pressure));
    case 'ethylene-glycol':
      return keep(`ethylene-glycol ${spec.massFraction}`, () =>
        makeGlycol(ETHYLENE_GLYCOL, spec.massFraction),
      );
    case 'propylene-glycol':
      return keep(`propylene-glycol ${spec.massFraction}`, () =>
        makeGlycol(PROPYLENE_GLYCOL, spec.massFraction),
      );
    case 'oil':
      return makeOil(spec);
    case 'custom':
      return vaporising(makeCustomFluid(spec.name, spec.properties), spec.vaporisation ?? null);
    case 'polynomial':
      return vaporising(makePolynomialFluid(spec.name, spec.properties), spec.vaporisation ?? null);
  }
}

/**
 * Whether a stream is at saturation, condensing or evaporating.
 *
 * @param spec what the stream carries
 * @returns true for steam, and for a custom fluid with a latent heat
 * @range  any
 * @source none: convention of `FluidSpec`
 * @check  tests/core/fluids/vaporising.test.ts
 */
export function changesPhase(spec: FluidSpec): boolean {
  if (spec.kind === 'steam') return true;
  return 'vaporisation' in spec && (spec.vaporisation ?? null) !== null;
}

function keep(key: string, make: () => Fluid): Fluid {
  const known = kept.get(key);
  if (known !== undefined) return known;
  const fluid = tabulate(make());
  if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value!);
  kept.set(key, fluid);
  return fluid;
}
