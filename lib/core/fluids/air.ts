import { AIR_COLLISION, AIR_CONDUCTIVITY, AIR_VISCOSITY, DRY_AIR } from './air-table';
import type { Fluid } from './fluid';
import { integrate } from './gauss-legendre';
import { helmholtzDensity, helmholtzSpecificHeat } from './helmholtz';
import { STANDARD_ATMOSPHERE, ZERO_CELSIUS } from './physical-constants';
import { polynomial } from './polynomial';
import { inMegapascal, requirePressure, within } from './range';

/** Range offered: gas well away from its critical point, from arctic air to furnace preheaters [°C], [Pa]. */
const MINIMUM = -50;
const MAXIMUM = 600;
const PRESSURE_LIMITS = [1e3, 5e6] as const;

/** Lennard-Jones length [nm] and energy over Boltzmann's constant [K], molar mass [g/mol] (Lemmon & Jacobsen 2004, table I). */
const COLLISION_LENGTH = 0.36;
const COLLISION_ENERGY = 103.3;
const TRANSPORT_MOLAR_MASS = 28.9586;

/** Density that reduces the transport equations [kg/m³]: 10.4477 mol/dm³ with their own molar mass. */
const TRANSPORT_DENSITY = 10.4477 * TRANSPORT_MOLAR_MASS;

/**
 * Density of dry air.
 *
 * @param temperature [°C]
 * @param pressure    absolute [Pa]
 * @returns density [kg/m³]
 * @range  −50 to 600 °C, 1 kPa to 5 MPa here (the equation: 60 to 2000 K, up to 2000 MPa)
 * @source E. W. Lemmon et al., J. Phys. Chem. Ref. Data 29 (2000) 331–385
 * @check  tests/published/fluids.test.ts
 */
export function airDensity(temperature: number, pressure: number): number {
  const ideal = pressure / (DRY_AIR.gasConstant * (temperature + ZERO_CELSIUS));
  return helmholtzDensity(DRY_AIR, { temperature, pressure }, ideal);
}

/**
 * Isobaric specific heat of dry air.
 *
 * @param temperature [°C]
 * @param density     [kg/m³]
 * @returns specific heat [J/(kg·K)]
 * @range  as `airDensity`
 * @source E. W. Lemmon et al., J. Phys. Chem. Ref. Data 29 (2000) 331–385
 * @check  tests/published/fluids.test.ts
 */
export function airSpecificHeat(temperature: number, density: number): number {
  return helmholtzSpecificHeat(DRY_AIR, temperature, density);
}

/**
 * Dynamic viscosity of dry air.
 *
 * @param temperature [°C]
 * @param density     [kg/m³]
 * @returns viscosity [Pa·s]
 * @range  as `airDensity`; about 1 %
 * @source E. W. Lemmon, R. T. Jacobsen, Int. J. Thermophys. 25 (2004) 21–69, eqs 1 to 3
 * @check  tests/published/fluids.test.ts
 */
export function airViscosity(temperature: number, density: number): number {
  return 1e-6 * (diluteViscosity(temperature) + denseTerms(AIR_VISCOSITY, temperature, density));
}

/**
 * Thermal conductivity of dry air, without the critical enhancement.
 *
 * @param temperature [°C]
 * @param density     [kg/m³]
 * @returns conductivity [W/(m·K)]
 * @range  as `airDensity`; about 2 %
 * @source E. W. Lemmon, R. T. Jacobsen, Int. J. Thermophys. 25 (2004) 21–69, eqs 4 to 6
 * @check  tests/published/fluids.test.ts
 */
export function airConductivity(temperature: number, density: number): number {
  const tau = DRY_AIR.reducingTemperature / (temperature + ZERO_CELSIUS);
  const dilute = 1.308 * diluteViscosity(temperature) + 1.405 * tau ** -1.1 - 1.036 * tau ** -0.3;
  return 1e-3 * (dilute + denseTerms(AIR_CONDUCTIVITY, temperature, density));
}

/** µPa·s, eq. 2. */
function diluteViscosity(temperature: number): number {
  const kelvin = temperature + ZERO_CELSIUS;
  const collision = Math.exp(polynomial(AIR_COLLISION, Math.log(kelvin / COLLISION_ENERGY)));
  return (0.0266958 * Math.sqrt(TRANSPORT_MOLAR_MASS * kelvin)) / (COLLISION_LENGTH ** 2 * collision);
}

function denseTerms(terms: typeof AIR_VISCOSITY, temperature: number, density: number): number {
  const tau = DRY_AIR.reducingTemperature / (temperature + ZERO_CELSIUS);
  const delta = density / TRANSPORT_DENSITY;
  let sum = 0;
  for (const [n, t, d, l] of terms) sum += n * tau ** t * delta ** d * Math.exp(l === 0 ? 0 : -(delta ** l));
  return sum;
}

/**
 * Dry air at one pressure as a stream, by the formulas themselves (slow: see `tabulate`).
 *
 * @param pressure absolute [Pa]; null for 101 325 Pa
 * @returns the fluid; enthalpy [J/kg] above 0 °C, its specific heat integrated
 * @range  −50 to 600 °C; RangeError for pressures outside 1 kPa to 5 MPa. Moisture is left out: state a custom fluid for it
 * @source as of each property
 * @check  tests/published/fluids.test.ts
 */
export function makeAir(pressure: number | null): Fluid {
  const p = pressure ?? STANDARD_ATMOSPHERE;
  requirePressure('air', p, PRESSURE_LIMITS);
  const limited = within(MINIMUM, MAXIMUM);
  const specificHeat = limited((t) => airSpecificHeat(t, airDensity(t, p)));
  return {
    name: `air at ${inMegapascal(p)}`,
    minimum: MINIMUM,
    maximum: MAXIMUM,
    specificHeat,
    enthalpy: limited((t) => integrate(specificHeat, 0, t)),
    density: limited((t) => airDensity(t, p)),
    viscosity: limited((t) => airViscosity(t, airDensity(t, p))),
    conductivity: limited((t) => airConductivity(t, airDensity(t, p))),
    phaseChange: null,
  };
}
