import type { Fluid, PolynomialProperties, Property } from './fluid';
import { leastOfPolynomial, polynomial, polynomialIntegral } from './polynomial';
import { within } from './range';

/** No liquid or gas is colder [°C]. */
const ABSOLUTE_ZERO = -273.15;

/**
 * A fluid that the user describes by polynomials in temperature; the enthalpy is the exact integral of that specific heat.
 *
 * @param name       what the user calls it
 * @param properties range [°C]; coefficients, c₀ first, of specific heat [J/(kg·K)], density [kg/m³], viscosity [Pa·s] and
 *                   conductivity [W/(m·K)] in powers of the temperature in °C
 * @returns the fluid; enthalpy [J/kg] above 0 °C; what is not stated stays null
 * @range  minimum to maximum as stated; RangeError naming the fluid for an empty range, and naming property, value and
 *         temperature for one that is not above zero everywhere in it
 * @source the user
 * @check  tests/core/fluids/polynomial-fluid.test.ts
 */
export function makePolynomialFluid(name: string, properties: PolynomialProperties): Fluid {
  const { minimum, maximum } = properties;
  requireRange(name, minimum, maximum);
  const limited = within(minimum, maximum);
  const property = (what: string, unit: string, coefficients: number[]): Property => {
    requirePositive(name, { what, unit, coefficients }, properties);
    return limited((t) => polynomial(coefficients, t));
  };
  const orNull = (what: string, unit: string, coefficients: number[] | null) =>
    coefficients === null ? null : property(what, unit, coefficients);
  return {
    name,
    minimum,
    maximum,
    specificHeat: property('specific heat', 'J/(kg·K)', properties.specificHeat),
    enthalpy: limited((t) => polynomialIntegral(properties.specificHeat, t)),
    density: orNull('density', 'kg/m³', properties.density),
    viscosity: orNull('viscosity', 'Pa·s', properties.viscosity),
    conductivity: orNull('conductivity', 'W/(m·K)', properties.conductivity),
    phaseChange: null,
  };
}

function requireRange(name: string, minimum: number, maximum: number): void {
  if (!(minimum < maximum && Number.isFinite(maximum))) {
    throw new RangeError(`${name}: ${minimum} to ${maximum} °C is no range; the first must be the lower one`);
  }
  if (minimum < ABSOLUTE_ZERO) {
    throw new RangeError(`${name}: ${minimum} °C is below absolute zero, ${ABSOLUTE_ZERO} °C`);
  }
}

function requirePositive(
  name: string,
  { what, unit, coefficients }: { what: string; unit: string; coefficients: number[] },
  { minimum, maximum }: PolynomialProperties,
): void {
  if (coefficients.length === 0)
    throw new RangeError(`${name}: ${what} has no coefficients; state one or more`);
  if (!coefficients.every(Number.isFinite)) {
    throw new RangeError(`${name}: ${what} has a coefficient that is not a number`);
  }
  const { at, value } = leastOfPolynomial(coefficients, minimum, maximum);
  if (value > 0) return;
  const [shown, where] = [value, at].map((number) => Number(number.toPrecision(4)));
  throw new RangeError(
    `${name}: ${what} is ${shown} ${unit} at ${where} °C; it must be above 0 from ${minimum} to ${maximum} °C`,
  );
}
