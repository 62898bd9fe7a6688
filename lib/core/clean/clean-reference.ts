import type { Exchanger } from '../exchange/exchanger';
import type { Fluid } from '../fluids/fluid';
import { designConductance } from './design-conductance';

/** The two streams' properties, made once per unit. */
export type Fluids = { hot: Fluid; cold: Fluid };

/** One film of the clean unit at the design point, with what is needed to move it to another flow and temperature. */
export type FilmReference = {
  /** [m²·K/W] at the design point */
  resistance: number;
  /** Exponent of the film coefficient on mass flow [-]; 0 for a stream that changes phase, whose film is taken constant. */
  exponent: number;
  /** Design mass flow [kg/s]. */
  flow: number;
  /** Properties at the mean design temperature; null where the film is not corrected for properties (φ = 1). */
  properties: FilmProperties | null;
};

/** Conductivity [W/(m·K)], specific heat [J/(kg·K)] and viscosity [Pa·s] at the mean design temperature. */
type FilmProperties = { conductivity: number; specificHeat: number; viscosity: number; fluid: Fluid };

/** The clean unit, ready to be evaluated at any flows and temperatures. */
export type CleanReference = {
  hot: FilmReference;
  cold: FilmReference;
  /** [m²·K/W] */
  wall: number;
  /** Clean conductance of the datasheet at the design point [W/(m²·K)], before the factors. */
  cleanUDesign: number;
  /** Factors on the three resistances: 1 for the datasheet, else learned after a cleaning. */
  factors: CleanFactors;
};

/** Factors on the datasheet's clean resistances [-]. A learned scale has the same on all three; a learned pair of films leaves the wall at 1. */
export type CleanFactors = { hot: number; wall: number; cold: number };

/** The clean resistances as the datasheet states them. */
export const AS_ON_DATASHEET: CleanFactors = { hot: 1, wall: 1, cold: 1 };

/**
 * Factors of a learned scale: the same on every resistance.
 *
 * @param scale learned factor on the clean resistance [-], > 0
 * @returns factors [-]
 * @range  any
 * @source METHODS §5
 * @check  tests/core/clean/clean-conductance.test.ts
 */
export function scaledFactors(scale: number): CleanFactors {
  return { hot: scale, wall: scale, cold: scale };
}

/**
 * Splits the clean resistance of the design point into hot film, wall and cold film, with the properties there.
 *
 * @param exchanger the unit (its films complete)
 * @param fluids    properties of its streams
 * @param factors   learned factors on the clean resistances [-]
 * @returns the clean reference; RangeError where the design point is not possible for the arrangement
 * @range  shares adding to at most 1, factors above 0
 * @source METHODS §5; Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eq. 11.1a (resistances in series)
 * @check  tests/core/clean/clean-conductance.test.ts
 */
export function cleanReference(
  exchanger: Exchanger,
  fluids: Fluids,
  factors: CleanFactors = AS_ON_DATASHEET,
): CleanReference {
  const { design, films } = exchanger;
  const cleanUDesign = design.cleanU ?? designConductance(exchanger, fluids);
  if (!(cleanUDesign > 0)) throw new RangeError('the design point is not possible for this arrangement');
  const resistance = 1 / cleanUDesign;
  const hotMean = (design.hotIn + design.hotOut) / 2;
  const coldMean = (design.coldIn + design.coldOut) / 2;
  return {
    hot: {
      resistance: films.hotShare * resistance,
      exponent: fluids.hot.phaseChange === null ? films.hotExponent : 0,
      flow: design.hotFlow,
      properties: filmProperties(fluids.hot, hotMean),
    },
    cold: {
      resistance: Math.max(0, 1 - films.hotShare - films.wallShare) * resistance,
      exponent: fluids.cold.phaseChange === null ? films.coldExponent : 0,
      flow: design.coldFlow,
      properties: filmProperties(fluids.cold, coldMean),
    },
    wall: films.wallShare * resistance,
    cleanUDesign,
    factors,
  };
}

function filmProperties(fluid: Fluid, temperature: number): FilmProperties | null {
  if (fluid.phaseChange !== null || fluid.conductivity === null || fluid.viscosity === null) return null;
  const conductivity = fluid.conductivity(temperature);
  const viscosity = fluid.viscosity(temperature);
  const specificHeat = fluid.specificHeat(temperature);
  if (!(conductivity > 0 && viscosity > 0 && specificHeat > 0)) return null;
  return { conductivity, specificHeat, viscosity, fluid };
}
