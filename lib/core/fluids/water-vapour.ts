import { REGION_2_IDEAL, REGION_2_RESIDUAL } from './if97-region2-table';
import { IF97_GAS_CONSTANT } from './liquid-water';
import { ZERO_CELSIUS } from './physical-constants';
import { powers } from './polynomial';

const REDUCING_PRESSURE = 1e6;
const REDUCING_TEMPERATURE = 540;

/**
 * Volume and enthalpy of water vapour by IAPWS-IF97 region 2.
 *
 * @param temperature [°C]
 * @param pressure    absolute [Pa], at most saturation
 * @returns volume [m³/kg] and enthalpy [J/kg] above the IF97 datum, the same as of `liquidWaterState`
 * @range  0 to 350 °C up to saturation pressure; the caller keeps to it
 * @source IAPWS R7-97(2012), eqs 15 to 17, tables 10 to 14
 * @check  tests/published/iapws-water.test.ts
 */
export function waterVapourState(
  temperature: number,
  pressure: number,
): { volume: number; enthalpy: number } {
  const kelvin = temperature + ZERO_CELSIUS;
  const pi = pressure / REDUCING_PRESSURE;
  const tau = REDUCING_TEMPERATURE / kelvin;
  let gammaTau = 0;
  for (const [j, n] of REGION_2_IDEAL) gammaTau += n * j * tau ** (j - 1);
  let gammaPi = 1 / pi;
  const y = tau - 0.5;
  const ofPi = powers(pi, 24);
  const ofY = powers(y, 58);
  for (const [i, j, n] of REGION_2_RESIDUAL) {
    const term = n * ofPi[i]! * ofY[j]!;
    gammaPi += (term * i) / pi;
    gammaTau += (term * j) / y;
  }
  const rt = IF97_GAS_CONSTANT * kelvin;
  return { volume: (rt * pi * gammaPi) / pressure, enthalpy: rt * tau * gammaTau };
}
