import type { Fluid } from './fluid';
import {
  liquidWaterState,
  REGION_1_GREATEST_PRESSURE,
  REGION_1_MAXIMUM,
  REGION_1_MINIMUM,
  type WaterState,
} from './liquid-water';
import { inMegapascal, requirePressure, within } from './range';
import { saturationPressure, saturationTemperature } from './saturation-line';
import { waterConductivity, waterViscosity } from './water-transport';

/**
 * Absolute pressure [Pa] of a water stream that states none: usual in cooling and heating circuits, keeps water liquid
 * up to 151.8 °C, and its properties are within 0.1 % of those at any pressure up to 1 MPa.
 */
export const DEFAULT_WATER_PRESSURE = 0.5e6;

/** Least pressure at which water is liquid at 0 °C [Pa] (R7-97, eq. 30). */
const LEAST_PRESSURE = saturationPressure(REGION_1_MINIMUM);

/**
 * Liquid water at one pressure as a stream, by the formulas themselves (slow: see `tabulate`).
 *
 * @param pressure absolute [Pa]; null for `DEFAULT_WATER_PRESSURE`
 * @returns the fluid; enthalpy [J/kg] above the IF97 datum
 * @range  0 °C to saturation, at most 350 °C; RangeError for pressures outside 611.2 Pa to 100 MPa
 * @source IAPWS R7-97(2012) region 1, R12-08, R15-11 (background)
 * @check  tests/published/iapws-water.test.ts
 */
export function makeWater(pressure: number | null): Fluid {
  const p = pressure ?? DEFAULT_WATER_PRESSURE;
  requirePressure('water', p, [LEAST_PRESSURE, REGION_1_GREATEST_PRESSURE]);
  const boils = p < saturationPressure(REGION_1_MAXIMUM);
  const maximum = boils ? saturationTemperature(p) : REGION_1_MAXIMUM;
  return {
    name: `water at ${inMegapascal(p)}`,
    minimum: REGION_1_MINIMUM,
    maximum,
    ...liquidProperties(maximum, () => p),
    phaseChange: null,
    advice: boils ? (temperature) => pressureAdvice(temperature, maximum) : () => null,
  };
}

/**
 * Properties of liquid water along a line of pressure over temperature.
 *
 * @param maximum    upper end of the line [°C]
 * @param pressureAt absolute pressure at a temperature [Pa]
 * @returns the five properties of a `Fluid`, NaN outside 0 °C to the maximum
 * @range  region 1 of IF97
 * @source IAPWS R7-97(2012) region 1, R12-08, R15-11 (background)
 * @check  tests/published/iapws-water.test.ts
 */
export function liquidProperties(maximum: number, pressureAt: (temperature: number) => number) {
  const limited = within(REGION_1_MINIMUM, maximum);
  let last = Number.NaN;
  let state: WaterState;
  // Tables ask for property after property at the same temperature.
  const at = (temperature: number): WaterState => {
    if (temperature !== last) state = liquidWaterState(temperature, pressureAt(temperature));
    last = temperature;
    return state;
  };
  return {
    specificHeat: limited((t) => at(t).specificHeat),
    enthalpy: limited((t) => at(t).enthalpy),
    density: limited((t) => 1 / at(t).volume),
    viscosity: limited((t) => waterViscosity(t, 1 / at(t).volume)),
    conductivity: limited((t) => waterConductivity(t, 1 / at(t).volume)),
  };
}

function pressureAdvice(temperature: number, maximum: number): string | null {
  if (!(temperature > maximum && temperature <= REGION_1_MAXIMUM)) return null;
  // Rounded up, so that the pressure named is enough.
  const needed = Math.ceil(saturationPressure(temperature) / 1e4) / 100;
  return `if the stream is liquid there, state its absolute pressure: ${needed} MPa or more`;
}
