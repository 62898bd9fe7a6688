import { REGION_1, REGION_1_BACKWARD } from './if97-region1-table';
import { ZERO_CELSIUS } from './physical-constants';
import { powers } from './polynomial';

/** Specific gas constant of water in IAPWS-IF97 [J/(kg·K)] (R7-97, eq. 1). */
export const IF97_GAS_CONSTANT = 461.526;

/** Range of region 1 (R7-97, section 5) in temperature [°C] and its greatest pressure [Pa]. */
export const REGION_1_MINIMUM = 0;
export const REGION_1_MAXIMUM = 350;
export const REGION_1_GREATEST_PRESSURE = 100e6;

const REDUCING_PRESSURE = 16.53e6;
const REDUCING_TEMPERATURE = 1386;
const BACKWARD_PRESSURE = 1e6;
const BACKWARD_ENTHALPY = 2500e3;

/** One state of liquid water in SI units; energies above the IF97 datum (saturated liquid at the triple point). */
export type WaterState = {
  /** m³/kg */
  volume: number;
  /** J/kg */
  enthalpy: number;
  /** J/kg */
  internalEnergy: number;
  /** J/(kg·K) */
  entropy: number;
  /** J/(kg·K), at constant pressure */
  specificHeat: number;
  /** m/s */
  soundSpeed: number;
};

/**
 * State of liquid water by IAPWS-IF97 region 1.
 *
 * @param temperature [°C]
 * @param pressure    absolute [Pa]
 * @returns volume [m³/kg], enthalpy [J/kg], entropy and specific heat [J/(kg·K)], speed of sound [m/s]
 * @range  0 to 350 °C, saturation pressure to 100 MPa; the caller keeps to it (outside, the formula extrapolates)
 * @source IAPWS R7-97(2012), eq. 7, tables 2 to 4
 * @check  tests/published/iapws-water.test.ts
 */
export function liquidWaterState(temperature: number, pressure: number): WaterState {
  const kelvin = temperature + ZERO_CELSIUS;
  const pi = pressure / REDUCING_PRESSURE;
  const tau = REDUCING_TEMPERATURE / kelvin;
  const g = gibbsDerivatives(pi, tau);
  const rt = IF97_GAS_CONSTANT * kelvin;
  const mixed = g.pi - tau * g.piTau;
  return {
    volume: (rt * pi * g.pi) / pressure,
    enthalpy: rt * tau * g.tau,
    internalEnergy: rt * (tau * g.tau - pi * g.pi),
    entropy: IF97_GAS_CONSTANT * (tau * g.tau - g.value),
    specificHeat: -IF97_GAS_CONSTANT * tau * tau * g.tauTau,
    soundSpeed: Math.sqrt((rt * g.pi * g.pi) / (mixed ** 2 / (tau * tau * g.tauTau) - g.piPi)),
  };
}

/** Dimensionless Gibbs energy and its derivatives, R7-97 table 4. */
function gibbsDerivatives(pi: number, tau: number) {
  const x = 7.1 - pi;
  const y = tau - 1.222;
  const ofX = powers(x, 32);
  const ofY = powers(y, 17);
  const ofInverseY = powers(1 / y, 41);
  const g = { value: 0, pi: 0, piPi: 0, tau: 0, tauTau: 0, piTau: 0 };
  for (const [i, j, n] of REGION_1) {
    const term = n * ofX[i]! * (j < 0 ? ofInverseY[-j]! : ofY[j]!);
    g.value += term;
    g.pi -= (term * i) / x;
    g.piPi += (term * i * (i - 1)) / (x * x);
    g.tau += (term * j) / y;
    g.tauTau += (term * j * (j - 1)) / (y * y);
    g.piTau -= (term * i * j) / (x * y);
  }
  return g;
}

/**
 * Temperature of liquid water from pressure and enthalpy, by the backward equation: within 25 mK of the inverse of
 * `liquidWaterState`, so a start value for an iteration, not its end.
 *
 * @param pressure absolute [Pa]
 * @param enthalpy above the IF97 datum [J/kg]
 * @returns temperature [°C]
 * @range  region 1: 0 to 350 °C, up to 100 MPa
 * @source IAPWS R7-97(2012), eq. 11, table 6
 * @check  tests/published/iapws-water.test.ts
 */
export function liquidWaterTemperature(pressure: number, enthalpy: number): number {
  const pi = pressure / BACKWARD_PRESSURE;
  const eta = enthalpy / BACKWARD_ENTHALPY + 1;
  let kelvin = 0;
  for (const [i, j, n] of REGION_1_BACKWARD) kelvin += n * pi ** i * eta ** j;
  return kelvin - ZERO_CELSIUS;
}
