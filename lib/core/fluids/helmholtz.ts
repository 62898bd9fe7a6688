import { ZERO_CELSIUS } from './physical-constants';

/** A fluid given by its dimensionless Helmholtz energy φ(δ, τ) = φ°(δ, τ) + φʳ(δ, τ), δ = ρ/ρ*, τ = T star/T. */
export type HelmholtzModel = {
  /** J/(kg·K) */
  gasConstant: number;
  /** K */
  reducingTemperature: number;
  /** kg/m³ */
  reducingDensity: number;
  /** −τ²·∂²φ°/∂τ² as a function of τ: the isochoric heat capacity of the ideal gas over R [-]. */
  idealHeat: (tau: number) => number;
  /** n·δ^d·τ^t·exp(−δ^c); c = 0 stands for no exponential. */
  powers: readonly (readonly [c: number, d: number, t: number, n: number])[];
  /** n·δ^d·τ^t·exp(−α(δ − ε)² − β(τ − γ)²) */
  bells: readonly (readonly [
    d: number,
    t: number,
    n: number,
    alpha: number,
    beta: number,
    gamma: number,
    epsilon: number,
  ])[];
};

/** Newton stops at this relative step in density [-]; convergence is quadratic, so the error is far smaller. */
const DENSITY_STEP_TOLERANCE = 1e-9;
const MOST_STEPS = 50;

/** δφʳδ, δ²φʳδδ, τ²φʳττ and δτφʳδτ. */
type Residual = { d: number; dd: number; tt: number; dt: number };

function residual(model: HelmholtzModel, delta: number, tau: number): Residual {
  const sum = { d: 0, dd: 0, tt: 0, dt: 0 };
  for (const [c, d, t, n] of model.powers) {
    const decay = c === 0 ? 0 : delta ** c;
    const term = n * delta ** d * tau ** t * Math.exp(-decay);
    const e = d - c * decay;
    sum.d += term * e;
    sum.dd += term * (e * e - d - c * (c - 1) * decay);
    sum.tt += term * t * (t - 1);
    sum.dt += term * e * t;
  }
  for (const [d, t, n, alpha, beta, gamma, epsilon] of model.bells) {
    const term =
      n * delta ** d * tau ** t * Math.exp(-alpha * (delta - epsilon) ** 2 - beta * (tau - gamma) ** 2);
    const e = d - 2 * alpha * delta * (delta - epsilon);
    const f = t - 2 * beta * tau * (tau - gamma);
    sum.d += term * e;
    sum.dd += term * (e * e - d - 2 * alpha * delta * delta);
    sum.tt += term * (f * f - t - 2 * beta * tau * tau);
    sum.dt += term * e * f;
  }
  return sum;
}

/**
 * Density of a single-phase state from temperature and pressure, by Newton's method on p(ρ, T).
 *
 * @param model   the fluid
 * @param state   temperature [°C] and absolute pressure [Pa]
 * @param start   a density of the phase wanted [kg/m³], within some per cent for a liquid, the ideal gas's for a gas
 * @returns density [kg/m³]; NaN if the iteration does not settle
 * @range  that of the model, away from its critical point
 * @source IAPWS R6-95(2018), table 3 (pressure and its derivative)
 * @check  tests/published/fluids.test.ts
 */
export function helmholtzDensity(
  model: HelmholtzModel,
  state: { temperature: number; pressure: number },
  start: number,
): number {
  const kelvin = state.temperature + ZERO_CELSIUS;
  const tau = model.reducingTemperature / kelvin;
  const rt = model.gasConstant * kelvin;
  let density = start;
  for (let step = 0; step < MOST_STEPS; step++) {
    const r = residual(model, density / model.reducingDensity, tau);
    const change = (density * rt * (1 + r.d) - state.pressure) / (rt * (1 + 2 * r.d + r.dd));
    density -= change;
    if (Math.abs(change) <= DENSITY_STEP_TOLERANCE * density) return density;
  }
  return Number.NaN;
}

/**
 * Isobaric specific heat at a temperature and density.
 *
 * @param model       the fluid
 * @param temperature [°C]
 * @param density     [kg/m³]
 * @returns specific heat [J/(kg·K)]
 * @range  that of the model, away from its critical point
 * @source IAPWS R6-95(2018), table 3
 * @check  tests/published/fluids.test.ts
 */
export function helmholtzSpecificHeat(model: HelmholtzModel, temperature: number, density: number): number {
  const tau = model.reducingTemperature / (temperature + ZERO_CELSIUS);
  const r = residual(model, density / model.reducingDensity, tau);
  const isochoric = model.idealHeat(tau) - r.tt;
  return model.gasConstant * (isochoric + (1 + r.d - r.dt) ** 2 / (1 + 2 * r.d + r.dd));
}

/**
 * Contribution of one vibration to the heat capacity of an ideal gas over R (Planck–Einstein function).
 *
 * @param x characteristic temperature over temperature [-]
 * @returns x²·eˣ/(eˣ − 1)² [-], between 0 and 1
 * @range  x > 0
 * @source IAPWS R6-95(2018), table 4 (φ°ττ)
 * @check  tests/published/fluids.test.ts
 */
export function vibrationHeat(x: number): number {
  return (x * x * Math.exp(-x)) / Math.expm1(-x) ** 2;
}
