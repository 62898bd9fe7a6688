import { type LeastSquares, leastSquares } from './least-squares';
import { findMinimum } from './minimise';

/** Search range of the autocorrelation; noise of fouling figures is not negatively correlated by nature, but tests are. */
export const LARGEST_AUTOCORRELATION = 0.98;

/**
 * Takes the AR(1) correlation out of a series with gaps, in place: e(i) = (z(i) − ρ·z(i−1))/√(1 − ρ²), ρ = φ^Δt.
 * Uncorrelated rows come out unchanged.
 *
 * @param correlations ρ of each value with the one before it [-], |ρ| < 1; the first is not used
 * @param values series divided by its standard deviations [-], same length; overwritten
 * @returns values
 * @range |ρ| < 1
 * @source Brockwell & Davis, Introduction to Time Series and Forecasting, 2nd ed. 2002, sect. 2.2 and 6.6
 * @check tests/published/trend-statistics.test.ts
 */
export function whiten(correlations: Float64Array, values: Float64Array): Float64Array {
  // Most steps are of one day: the same correlation, and the same root.
  let known = 0;
  let root = 1;
  for (let i = values.length - 1; i > 0; i--) {
    const rho = correlations[i]!;
    if (rho === 0) continue;
    if (rho !== known) {
      known = rho;
      root = Math.sqrt(1 - rho * rho);
    }
    values[i] = (values[i]! - rho * values[i - 1]!) / root;
  }
  return values;
}

/**
 * Correlation of each value with the one before it for AR(1) noise seen at irregular ages: φ^Δt.
 *
 * @param t ages, ascending [days], n values
 * @param phi correlation over one day [-], 0 ≤ φ < 1, or −1 < φ < 0 where all steps are 1
 * @returns n values, the first 0 [-]
 * @range as for phi
 * @source Brockwell & Davis, Introduction to Time Series and Forecasting, 2nd ed. 2002, sect. 2.2
 * @check tests/published/trend-statistics.test.ts
 */
export function stepCorrelations(t: ArrayLike<number>, phi: number): Float64Array {
  const correlations = new Float64Array(t.length);
  let [known, power] = [0, 1];
  for (let i = 1; i < t.length; i++) {
    const step = t[i]! - t[i - 1]!;
    if (step !== known) [known, power] = [step, phi ** step];
    correlations[i] = power;
  }
  return correlations;
}

/** Linear model with AR(1) noise. */
export type AutoregressiveFit = LeastSquares & { phi: number; logLikelihood: number };

/**
 * Generalised least squares of a linear model with AR(1) noise, φ by maximum likelihood.
 *
 * @param t ages, ascending [any unit], n values
 * @param columns p arrays of n values
 * @param y n values [any unit]
 * @returns parameters with covariance (residual variance with n − p), φ over one unit of t, log-likelihood
 * @range n > p; 0 ≤ φ ≤ 0.98
 * @source Pinheiro & Bates, Mixed-Effects Models in S and S-PLUS, 2000, sect. 5.3
 * @check tests/published/trend-statistics.test.ts
 */
export function autoregressiveFit(
  t: ArrayLike<number>,
  columns: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
): AutoregressiveFit {
  const at = (phi: number) => {
    const rho = stepCorrelations(t, phi);
    const whitened = columns.map((column) => whiten(rho, Float64Array.from(column)));
    const fit = leastSquares(whitened, whiten(rho, Float64Array.from(y)));
    const logDeterminant = rho.reduce((sum, value) => sum + Math.log1p(-value * value), 0);
    const variance = fit.residualSumOfSquares / y.length;
    const logLikelihood = -0.5 * (y.length * (Math.log(2 * Math.PI * variance) + 1) + logDeterminant);
    return { ...fit, phi, logLikelihood };
  };
  const best = findMinimum((phi) => -at(phi).logLikelihood, [0, LARGEST_AUTOCORRELATION]);
  return at(best.x);
}
