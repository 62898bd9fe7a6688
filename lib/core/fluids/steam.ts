import type { Fluid } from './fluid';
import { REGION_1_MAXIMUM, REGION_1_MINIMUM } from './liquid-water';
import { inMegapascal, requirePressure, within } from './range';
import { saturationPressure, saturationTemperature } from './saturation-line';
import { liquidProperties } from './water';
import { waterVapourState } from './water-vapour';

/**
 * Enthalpy of saturated steam.
 *
 * @param temperature saturation temperature [°C]
 * @returns enthalpy [J/kg] above the IF97 datum
 * @range  0 to 350 °C; the caller keeps to it
 * @source IAPWS R7-97(2012) region 2 on the saturation line of region 4
 * @check  tests/published/iapws-water.test.ts
 */
export function saturatedVapourEnthalpy(temperature: number): number {
  return waterVapourState(temperature, saturationPressure(temperature)).enthalpy;
}

/**
 * Saturated steam that condenses, by the formulas themselves (slow: see `tabulate`). The liquid properties are the
 * condensate's on the saturation line. Subcooled condensate is taken there too: its pressure above saturation would add
 * less than v·Δp, 0.5 kJ/kg at 0.5 MPa, 0.03 % of the latent heat. Hence dh/dT is the slope of the saturation line,
 * 0.3 % above the specific heat at 150 °C.
 *
 * @param pressure absolute [Pa]; null where the saturation temperature is read from the inlet sensor
 * @returns the fluid with `phaseChange`; enthalpies [J/kg] above the IF97 datum
 * @range  0 to 350 °C; RangeError for pressures outside 611.2 Pa to 16.53 MPa
 * @source IAPWS R7-97(2012) regions 1, 2 and 4, R12-08, R15-11 (background)
 * @check  tests/published/iapws-water.test.ts
 */
export function makeSteam(pressure: number | null): Fluid {
  if (pressure !== null) {
    const limits = [saturationPressure(REGION_1_MINIMUM), saturationPressure(REGION_1_MAXIMUM)] as const;
    requirePressure('steam', pressure, limits);
  }
  const liquid = liquidProperties(REGION_1_MAXIMUM, saturationPressure);
  return {
    name: pressure === null ? 'steam' : `steam at ${inMegapascal(pressure)}`,
    minimum: REGION_1_MINIMUM,
    maximum: REGION_1_MAXIMUM,
    ...liquid,
    phaseChange: {
      saturationTemperature: pressure === null ? null : saturationTemperature(pressure),
      vapourEnthalpy: within(REGION_1_MINIMUM, REGION_1_MAXIMUM)(saturatedVapourEnthalpy),
      liquidEnthalpy: liquid.enthalpy,
    },
  };
}
