import { ZERO_CELSIUS } from './physical-constants';
import { polynomial } from './polynomial';
import {
  CONDUCTIVITY_DENSE,
  CONDUCTIVITY_DILUTE,
  VISCOSITY_DENSE,
  VISCOSITY_DILUTE,
} from './water-transport-tables';

/** Critical temperature [K] and density [kg/m³] of water, the reducing quantities of both releases. */
const CRITICAL_TEMPERATURE = 647.096;
const CRITICAL_DENSITY = 322;

/**
 * Dynamic viscosity of water, without the critical enhancement (µ₂ = 1, as the release advises for industrial use).
 *
 * @param temperature [°C]
 * @param density     [kg/m³]
 * @returns viscosity [Pa·s]
 * @range  liquid and vapour from 0 °C to 900 °C; the enhancement left out matters only within 1 % of the critical point
 * @source IAPWS R12-08, eqs 10 to 12, tables 1 and 2
 * @check  tests/published/iapws-water.test.ts
 */
export function waterViscosity(temperature: number, density: number): number {
  const t = (temperature + ZERO_CELSIUS) / CRITICAL_TEMPERATURE;
  const rho = density / CRITICAL_DENSITY;
  const dilute = (100 * Math.sqrt(t)) / polynomial(VISCOSITY_DILUTE, 1 / t);
  return 1e-6 * dilute * Math.exp(rho * doublePolynomial(VISCOSITY_DENSE, 1 / t - 1, rho - 1));
}

/**
 * Thermal conductivity of water, background only: λ = λ₀·λ₁ without the critical enhancement λ₂. In boiling water λ₂ is
 * nil below about 150 °C, 0.13 % at 180 °C, 0.5 % at 250 °C, 1.2 % at 300 °C and 4.4 % at 350 °C; it sets in like a
 * square root, which no smooth table could follow.
 *
 * @param temperature [°C]
 * @param density     [kg/m³]
 * @returns conductivity [W/(m·K)]
 * @range  liquid and vapour from 0 °C to 900 °C, away from the critical point
 * @source IAPWS R15-11, eqs 16 and 17, tables 1 and 2
 * @check  tests/published/iapws-water.test.ts
 */
export function waterConductivity(temperature: number, density: number): number {
  const t = (temperature + ZERO_CELSIUS) / CRITICAL_TEMPERATURE;
  const rho = density / CRITICAL_DENSITY;
  const dilute = Math.sqrt(t) / polynomial(CONDUCTIVITY_DILUTE, 1 / t);
  return 1e-3 * dilute * Math.exp(rho * doublePolynomial(CONDUCTIVITY_DENSE, 1 / t - 1, rho - 1));
}

function doublePolynomial(rows: readonly (readonly number[])[], x: number, y: number): number {
  let sum = 0;
  for (let i = rows.length - 1; i >= 0; i--) sum = sum * x + polynomial(rows[i]!, y);
  return sum;
}
