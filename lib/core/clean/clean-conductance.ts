import type { Fluid } from '../fluids/fluid';
import type { CleanReference, FilmReference } from './clean-reference';

/**
 * Resistance of one clean film at another flow and temperature: R = R_ref·(ṁ/ṁ_ref)^−n·φ with
 * φ = (k_ref/k)^(2/3)·(cp_ref/cp)^(1/3)·(μ_ref/μ)^(1/3−n), from h ∝ k^(2/3)·cp^(1/3)·μ^(1/3−n)·ṁ^n.
 *
 * @param film            reference film
 * @param massFlow        [kg/s], > 0
 * @param meanTemperature arithmetic mean of the stream's inlet and outlet [°C]
 * @returns [m²·K/W]; φ = 1 where a property is not stated; NaN outside the fluid's range
 * @range  flows near the reference regime: the exponent holds for one flow regime only
 * @source METHODS §5; Nu ∝ Re^n·Pr^(1/3): Colburn, Trans. AIChE 29 (1933) 174; Sieder & Tate, Ind. Eng. Chem. 28 (1936) 1429
 * @check  tests/core/clean/clean-conductance.test.ts
 */
export function filmResistance(film: FilmReference, massFlow: number, meanTemperature: number): number {
  const flowRatio = massFlow / film.flow;
  const { properties, exponent } = film;
  if (properties === null) return exponent === 0 ? film.resistance : film.resistance * flowRatio ** -exponent;
  writeProperties(properties.fluid, meanTemperature);
  const conductivity = properties.conductivity / PROPERTIES[0]!;
  const specificHeat = properties.specificHeat / PROPERTIES[1]!;
  const viscosity = properties.viscosity / PROPERTIES[2]!;
  // (ṁ/ṁ_ref)·(μ_ref/μ) is the ratio of Reynolds numbers: one power serves both.
  const prandtlPart = Math.cbrt(conductivity * conductivity * specificHeat * viscosity);
  return film.resistance * prandtlPart * (flowRatio * viscosity) ** -exponent;
}

/** Conductivity, specific heat and viscosity of one film, and the temperature they are taken at. */
const PROPERTIES = new Float64Array(4);

function writeProperties(fluid: Fluid, temperature: number): void {
  if (fluid.filmInto !== undefined) {
    PROPERTIES[3] = temperature;
    fluid.filmInto(PROPERTIES, 3, PROPERTIES, 0);
    return;
  }
  PROPERTIES[0] = fluid.conductivity!(temperature);
  PROPERTIES[1] = fluid.specificHeat(temperature);
  PROPERTIES[2] = fluid.viscosity!(temperature);
}

/**
 * Clean conductance at a reading's own flows and temperatures: 1/Uc = fw·Rw + fh·Rh + fc·Rc, each film at its own flow
 * and f the learned factors.
 *
 * @param reference       from `cleanReference`
 * @param hotMassFlow     [kg/s], > 0
 * @param coldMassFlow    [kg/s], > 0
 * @param hotMeanTemperature  arithmetic mean of the hot inlet and outlet [°C]
 * @param coldMeanTemperature arithmetic mean of the cold inlet and outlet [°C]
 * @returns [W/(m²·K)]; NaN outside a fluid's range
 * @range  as `filmResistance`
 * @source METHODS §5; Incropera et al., 6th ed. 2007, eq. 11.1a
 * @check  tests/core/clean/clean-conductance.test.ts
 */
export function cleanConductance(
  reference: CleanReference,
  hotMassFlow: number,
  coldMassFlow: number,
  hotMeanTemperature: number,
  coldMeanTemperature: number,
): number {
  const hot = filmResistance(reference.hot, hotMassFlow, hotMeanTemperature);
  const cold = filmResistance(reference.cold, coldMassFlow, coldMeanTemperature);
  return 1 / cleanResistance(reference, hot, cold);
}

/**
 * Clean resistance from its two films: fw·Rw + fh·Rh + fc·Rc with f the reference's factors.
 *
 * @param reference from `cleanReference`
 * @param hotFilm   at today's flow and temperature, before its factor [m²·K/W]
 * @param coldFilm  likewise [m²·K/W]
 * @returns [m²·K/W]
 * @range  any
 * @source METHODS §5; Incropera et al., 6th ed. 2007, eq. 11.1a
 * @check  tests/core/clean/clean-conductance.test.ts
 */
export function cleanResistance(
  { wall, factors }: CleanReference,
  hotFilm: number,
  coldFilm: number,
): number {
  return factors.wall * wall + factors.hot * hotFilm + factors.cold * coldFilm;
}
