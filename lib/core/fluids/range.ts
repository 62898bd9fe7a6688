import type { Fluid, Property } from './fluid';

/** What a fluid's specification states, for the message when it is impossible. */
type Stated = { parameter: string; value: number; unit: string };

/**
 * Confines formulas to a range of temperature: NaN outside, never an extrapolation.
 *
 * @param minimum [°C]
 * @param maximum [°C]
 * @returns a function that confines one property [unit kept]
 * @range  bounds included
 * @source house rule: outside the published range there is no number
 * @check  tests/core/fluids/range.test.ts
 */
export function within(minimum: number, maximum: number): (property: Property) => Property {
  return (property) => (temperature) =>
    temperature >= minimum && temperature <= maximum ? property(temperature) : Number.NaN;
}

/**
 * Refuses a specification that no temperature could make right.
 *
 * @param fluid  its name in the message
 * @param stated parameter, value and unit
 * @param limits least and greatest allowed value [unit of the value]
 * @returns nothing; throws a RangeError naming fluid, parameter, value and range
 * @range  bounds included; not a number is refused
 * @source house rule: outside the published range there is no number
 * @check  tests/core/fluids/range.test.ts
 */
export function requireWithin(fluid: string, stated: Stated, limits: readonly [number, number]): void {
  const [least, greatest] = limits;
  if (stated.value >= least && stated.value <= greatest) return;
  const unit = stated.unit === '' ? '' : ` ${stated.unit}`;
  throw new RangeError(
    `${fluid}: ${stated.parameter} ${stated.value}${unit} is outside ${least} to ${greatest}${unit}`,
  );
}

/**
 * Refuses an impossible pressure, in megapascal as people say it.
 *
 * @param fluid    its name in the message
 * @param pressure absolute [Pa]
 * @param limits   least and greatest allowed pressure [Pa]
 * @returns nothing; throws a RangeError naming fluid, value and range
 * @range  bounds included; not a number is refused
 * @source house rule: outside the published range there is no number
 * @check  tests/core/fluids/range.test.ts
 */
export function requirePressure(fluid: string, pressure: number, limits: readonly [number, number]): void {
  const [least, greatest] = limits;
  if (pressure >= least && pressure <= greatest) return;
  throw new RangeError(
    `${fluid}: pressure ${inMegapascal(pressure)} is outside ${inMegapascal(least)} to ${inMegapascal(greatest)}`,
  );
}

/**
 * A pressure in words, four digits.
 *
 * @param pressure [Pa]
 * @returns for example "0.5 MPa"
 * @range  any
 * @source none needed
 * @check  tests/core/fluids/range.test.ts
 */
export function inMegapascal(pressure: number): string {
  return `${Number((pressure / 1e6).toPrecision(4))} MPa`;
}

/**
 * Says in words why a fluid has no properties at a temperature, and what to state to get them.
 *
 * @param fluid       any
 * @param temperature [°C]
 * @returns a sentence naming fluid, value and range, with the remedy where there is one; null where all is well
 * @range  any
 * @source house rule: outside the published range there is no number
 * @check  tests/core/fluids/range.test.ts
 */
export function describeOutOfRange(fluid: Fluid, temperature: number): string | null {
  if (temperature >= fluid.minimum && temperature <= fluid.maximum) return null;
  if (Number.isNaN(temperature)) return `${fluid.name}: the temperature is not a number`;
  // Rounded inwards, so that the range named is one that works.
  const least = Math.ceil(fluid.minimum * 10) / 10;
  const greatest = Math.floor(fluid.maximum * 10) / 10;
  const range = `${fluid.name}: ${Number(temperature.toFixed(2))} °C is outside ${least} to ${greatest} °C`;
  const advice = fluid.advice?.(temperature) ?? null;
  return advice === null ? range : `${range}; ${advice}`;
}
