import type { Fluid } from './fluid';
import type { GlycolTable } from './glycol-tables';
import { ZERO_CELSIUS } from './physical-constants';
import { polynomial, polynomialIntegral } from './polynomial';
import { requireWithin, within } from './range';

/** Greatest mass fraction [-] and temperature [°C] of the fit. */
const GREATEST_FRACTION = 0.6;
const MAXIMUM = 100;

/**
 * Freezing point of a glycol solution.
 *
 * @param table        coefficients of the glycol
 * @param massFraction mass of glycol over mass of solution [-]
 * @returns temperature at which the first ice forms [°C]
 * @range  0 to 0.6
 * @source Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, IIR, Paris 2010
 * @check  tests/published/fluids.test.ts
 */
export function glycolFreezingPoint(table: GlycolTable, massFraction: number): number {
  return polynomial(table.freezing, massFraction - table.meanFraction) - ZERO_CELSIUS;
}

/**
 * Aqueous glycol as a stream. The mass fraction is put in once, so that each property is a cubic in temperature and the
 * enthalpy its exact integral.
 *
 * @param table        coefficients of the glycol
 * @param massFraction mass of glycol over mass of solution [-]
 * @returns the fluid; enthalpy [J/kg] above the fit's mean temperature
 * @range  freezing point to 100 °C; RangeError for mass fractions outside 0 to 0.6
 * @source Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, IIR, Paris 2010
 * @check  tests/published/fluids.test.ts
 */
export function makeGlycol(table: GlycolTable, massFraction: number): Fluid {
  const stated = { parameter: 'mass fraction', value: massFraction, unit: '' };
  requireWithin(table.name, stated, [0, GREATEST_FRACTION]);
  const minimum = glycolFreezingPoint(table, massFraction);
  const limited = within(minimum, MAXIMUM);
  const inTemperature = (rows: readonly (readonly number[])[]) =>
    rows.map((row) => polynomial(row, massFraction - table.meanFraction));
  const mean = table.meanTemperature - ZERO_CELSIUS;
  const density = inTemperature(table.density);
  const specificHeat = inTemperature(table.specificHeat);
  const logViscosity = inTemperature(table.logViscosity);
  const conductivity = inTemperature(table.conductivity);
  return {
    name: `${table.name} ${Number((massFraction * 100).toPrecision(4))} %`,
    minimum,
    maximum: MAXIMUM,
    specificHeat: limited((t) => polynomial(specificHeat, t - mean)),
    enthalpy: limited((t) => polynomialIntegral(specificHeat, t - mean)),
    density: limited((t) => polynomial(density, t - mean)),
    viscosity: limited((t) => Math.exp(polynomial(logViscosity, t - mean))),
    conductivity: limited((t) => polynomial(conductivity, t - mean)),
    phaseChange: null,
  };
}
