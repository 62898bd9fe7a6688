import type { Fluid } from './fluid';
import { integrate } from './gauss-legendre';
import { helmholtzDensity, helmholtzSpecificHeat } from './helmholtz';
import { IAPWS_95 } from './iapws95-table';
import { STANDARD_ATMOSPHERE, ZERO_CELSIUS } from './physical-constants';
import { requireWithin, within } from './range';
import { SALINE_HEAT, SALINE_VOLUME } from './seawater-table';

/** S* of IAPWS R13-08, table 1 [kg/kg]: 40/35 of the salinity of the reference sea water. */
const REDUCING_SALINITY = (0.03516504 * 40) / 35;
const REDUCING_TEMPERATURE = 40;
const REDUCING_PRESSURE = 100e6;

/** Greatest salinity [kg/kg] at which R13-08 holds up to 80 °C; saltier brines only to 40 °C (section 6 of the release). */
const OCEAN_SALINITY = 0.042;
const GREATEST_SALINITY = 0.12;
const MINIMUM = 0;
const OCEAN_MAXIMUM = 80;
const BRINE_MAXIMUM = 40;

/** Any density of cold liquid water [kg/m³]: where the iteration starts. */
const WATER_DENSITY_START = 1000;

/**
 * Density of sea water at 0.101325 MPa.
 *
 * @param temperature [°C]
 * @param salinity    mass of salt over mass of sea water [kg/kg]
 * @returns density [kg/m³]
 * @range  0 to 80 °C up to 0.042 kg/kg, 0 to 40 °C up to 0.12 kg/kg; at 0.5 MPa sea water is 0.02 % denser
 * @source IAPWS R13-08(2008), eq. 4, tables 2 and 3, with IAPWS-95 as the water part
 * @check  tests/published/fluids.test.ts
 */
export function seawaterDensity(temperature: number, salinity: number): number {
  const x = Math.sqrt(salinity / REDUCING_SALINITY);
  const y = temperature / REDUCING_TEMPERATURE;
  let volume = 1 / waterDensity(temperature);
  for (const [i, j, g] of SALINE_VOLUME) volume += (g * x ** i * y ** j) / REDUCING_PRESSURE;
  return 1 / volume;
}

/**
 * Isobaric specific heat of sea water at 0.101325 MPa.
 *
 * @param temperature [°C]
 * @param salinity    [kg/kg]
 * @returns specific heat [J/(kg·K)]
 * @range  as `seawaterDensity`
 * @source IAPWS R13-08(2008), eq. 4, tables 2 and 3, with IAPWS-95 as the water part
 * @check  tests/published/fluids.test.ts
 */
export function seawaterSpecificHeat(temperature: number, salinity: number): number {
  const x = Math.sqrt(salinity / REDUCING_SALINITY);
  const y = temperature / REDUCING_TEMPERATURE;
  let curvature = 0;
  for (const [i, j, g] of SALINE_HEAT) curvature += g * x ** i * j * (j - 1) * y ** (j - 2);
  const saline = (-(temperature + ZERO_CELSIUS) * curvature) / REDUCING_TEMPERATURE ** 2;
  return helmholtzSpecificHeat(IAPWS_95, temperature, waterDensity(temperature)) + saline;
}

function waterDensity(temperature: number): number {
  return helmholtzDensity(IAPWS_95, { temperature, pressure: STANDARD_ATMOSPHERE }, WATER_DENSITY_START);
}

/**
 * Dynamic viscosity of sea water.
 *
 * @param temperature [°C]
 * @param salinity    [kg/kg]
 * @returns viscosity [Pa·s], uncertainty 1.5 %
 * @range  0 to 180 °C, 0 to 0.15 kg/kg
 * @source M. H. Sharqawy, J. H. Lienhard, S. M. Zubair, Desalination and Water Treatment 16 (2010) 354–380, eqs 22, 23
 * @check  tests/published/fluids.test.ts
 */
export function seawaterViscosity(temperature: number, salinity: number): number {
  const t = temperature;
  const water = 4.2844e-5 + 1 / (0.157 * (t + 64.993) ** 2 - 91.296);
  const a = 1.541 + 1.998e-2 * t - 9.52e-5 * t * t;
  const b = 7.974 - 7.561e-2 * t + 4.724e-4 * t * t;
  return water * (1 + a * salinity + b * salinity * salinity);
}

/**
 * Thermal conductivity of sea water.
 *
 * @param temperature [°C]
 * @param salinity    [kg/kg]
 * @returns conductivity [W/(m·K)], uncertainty 3 %
 * @range  0 to 180 °C, 0 to 0.16 kg/kg
 * @source D. T. Jamieson, J. S. Tudhope, 1970, as eq. 13 of Sharqawy et al., Desalination and Water Treatment 16 (2010)
 * @check  tests/published/fluids.test.ts
 */
export function seawaterConductivity(temperature: number, salinity: number): number {
  const s = salinity * 1000;
  const kelvin = temperature + ZERO_CELSIUS;
  const shape = (2.3 - (343.5 + 0.037 * s) / kelvin) * (1 - kelvin / (647 + 0.03 * s)) ** 0.333;
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: 0.434 is printed so, not meant as log10(e)
  return 1e-3 * 10 ** (Math.log10(240 + 0.0002 * s) + 0.434 * shape);
}

/**
 * Sea water as a stream at 0.101325 MPa, by the formulas themselves (slow: see `tabulate`).
 *
 * @param salinity [kg/kg]
 * @returns the fluid; enthalpy [J/kg] above 0 °C, its specific heat integrated
 * @range  0 to 80 °C up to 0.042 kg/kg, 0 to 40 °C up to 0.12 kg/kg; RangeError for other salinities
 * @source as of each property
 * @check  tests/published/fluids.test.ts
 */
export function makeSeawater(salinity: number): Fluid {
  requireWithin('seawater', { parameter: 'salinity', value: salinity, unit: 'kg/kg' }, [
    0,
    GREATEST_SALINITY,
  ]);
  const maximum = salinity <= OCEAN_SALINITY ? OCEAN_MAXIMUM : BRINE_MAXIMUM;
  const limited = within(MINIMUM, maximum);
  const specificHeat = limited((t) => seawaterSpecificHeat(t, salinity));
  return {
    name: `seawater of ${Number((salinity * 1000).toPrecision(4))} g/kg`,
    minimum: MINIMUM,
    maximum,
    specificHeat,
    enthalpy: limited((t) => integrate(specificHeat, MINIMUM, t)),
    density: limited((t) => seawaterDensity(t, salinity)),
    viscosity: limited((t) => seawaterViscosity(t, salinity)),
    conductivity: limited((t) => seawaterConductivity(t, salinity)),
    phaseChange: null,
  };
}
