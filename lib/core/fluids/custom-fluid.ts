import type { CustomProperties, Fluid, Property } from './fluid';
import { within } from './range';

/** Range of a fluid stated by constants alone [°C]: wide, because the user vouches for it, and finite. */
const CONSTANT_MINIMUM = -273.15;
const CONSTANT_MAXIMUM = 2000;

/**
 * A fluid that the user describes by constants or by a table over temperature: linear between its points, and the
 * enthalpy the exact integral of that specific heat.
 *
 * @param name       what the user calls it
 * @param properties temperatures [°C], specific heat [J/(kg·K)], density [kg/m³], viscosity [Pa·s], conductivity [W/(m·K)]
 * @returns the fluid; enthalpy [J/kg] above its first temperature; what is not stated stays null
 * @range  first to last temperature of the table; −273.15 to 2000 °C for constants. RangeError naming the fluid, the
 *         property and the value for a table that is empty, not ascending, of unequal lengths or not above zero
 * @source the user
 * @check  tests/core/fluids/custom-fluid.test.ts
 */
export function makeCustomFluid(name: string, properties: CustomProperties): Fluid {
  const { temperatures } = properties;
  requireAscending(name, temperatures);
  const isConstant = temperatures.length === 1;
  const minimum = isConstant ? CONSTANT_MINIMUM : temperatures[0]!;
  const maximum = isConstant ? CONSTANT_MAXIMUM : temperatures.at(-1)!;
  const limited = within(minimum, maximum);
  const property = (what: string, values: number[]): Property => {
    requireValues(name, { what, values }, temperatures.length);
    return limited((t) => interpolate(temperatures, values, t));
  };
  const orNull = (what: string, values: number[] | null) => (values === null ? null : property(what, values));
  const specificHeat = property('specific heat', properties.specificHeat);
  const enthalpies = cumulate(temperatures, properties.specificHeat);
  return {
    name,
    minimum,
    maximum,
    specificHeat,
    enthalpy: limited((t) => {
      const i = segmentOf(temperatures, t);
      // The mean of a linear function over an interval is the mean of its ends.
      return enthalpies[i]! + ((specificHeat(t) + properties.specificHeat[i]!) / 2) * (t - temperatures[i]!);
    }),
    density: orNull('density', properties.density),
    viscosity: orNull('viscosity', properties.viscosity),
    conductivity: orNull('conductivity', properties.conductivity),
    phaseChange: null,
  };
}

/** Index of the last point not above the temperature, so that a next one exists where there are two or more. */
function segmentOf(temperatures: readonly number[], temperature: number): number {
  let low = 0;
  let high = temperatures.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (temperatures[middle]! <= temperature) low = middle;
    else high = middle;
  }
  return low;
}

function interpolate(
  temperatures: readonly number[],
  values: readonly number[],
  temperature: number,
): number {
  if (temperatures.length === 1) return values[0]!;
  const i = segmentOf(temperatures, temperature);
  const share = (temperature - temperatures[i]!) / (temperatures[i + 1]! - temperatures[i]!);
  return values[i]! * (1 - share) + values[i + 1]! * share;
}

function cumulate(temperatures: readonly number[], specificHeat: readonly number[]): number[] {
  const enthalpies = [0];
  for (let i = 1; i < temperatures.length; i++) {
    const mean = (specificHeat[i]! + specificHeat[i - 1]!) / 2;
    enthalpies.push(enthalpies[i - 1]! + mean * (temperatures[i]! - temperatures[i - 1]!));
  }
  return enthalpies;
}

function requireAscending(name: string, temperatures: readonly number[]): void {
  if (temperatures.length === 0) throw new RangeError(`${name}: temperatures are empty; state one or more`);
  temperatures.forEach((temperature, i) => {
    const isFirst = i === 0;
    if (Number.isFinite(temperature) && (isFirst || temperature > temperatures[i - 1]!)) return;
    const after = isFirst ? '' : ` after ${temperatures[i - 1]}`;
    throw new RangeError(`${name}: temperature ${temperature} °C${after} is not ascending`);
  });
}

function requireValues(
  name: string,
  { what, values }: { what: string; values: number[] },
  length: number,
): void {
  if (values.length !== length) {
    throw new RangeError(`${name}: ${what} has ${values.length} values for ${length} temperatures`);
  }
  for (const value of values) {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
      throw new RangeError(`${name}: ${what} ${value} is not above 0`);
    }
  }
}
