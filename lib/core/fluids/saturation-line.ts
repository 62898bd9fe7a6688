import { ZERO_CELSIUS } from './physical-constants';

/** IAPWS R7-97(2012), table 34. */
const N = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550323333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const;

const REDUCING_PRESSURE = 1e6;

/**
 * Saturation pressure of water.
 *
 * @param temperature [°C]
 * @returns absolute pressure [Pa]
 * @range  0 to 373.946 °C; NaN or meaningless outside, the caller keeps to it
 * @source IAPWS R7-97(2012), eqs 29 and 30, table 34
 * @check  tests/published/iapws-water.test.ts
 */
export function saturationPressure(temperature: number): number {
  const kelvin = temperature + ZERO_CELSIUS;
  const theta = kelvin + N[8] / (kelvin - N[9]);
  const a = (theta + N[0]) * theta + N[1];
  const b = (N[2] * theta + N[3]) * theta + N[4];
  const c = (N[5] * theta + N[6]) * theta + N[7];
  return REDUCING_PRESSURE * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/**
 * Saturation temperature of water.
 *
 * @param pressure absolute [Pa]
 * @returns temperature [°C]
 * @range  611.213 Pa to 22.064 MPa; NaN or meaningless outside, the caller keeps to it
 * @source IAPWS R7-97(2012), eq. 31, table 34
 * @check  tests/published/iapws-water.test.ts
 */
export function saturationTemperature(pressure: number): number {
  const beta = (pressure / REDUCING_PRESSURE) ** 0.25;
  const e = (beta + N[2]) * beta + N[5];
  const f = (N[0] * beta + N[3]) * beta + N[6];
  const g = (N[1] * beta + N[4]) * beta + N[7];
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const sum = N[9] + d;
  return (sum - Math.sqrt(sum * sum - 4 * (N[8] + N[9] * d))) / 2 - ZERO_CELSIUS;
}
