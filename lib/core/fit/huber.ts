import { median } from '../stats/quantile';
import { leastSquares } from './least-squares';

/** Huber's k for 95 % efficiency on normal data. */
export const HUBER_K = 1.345;
/** Φ⁻¹(3/4) as rounded in print: the median absolute residual over this estimates the standard deviation. */
const NORMAL_QUARTILE = 0.6745;
const HUBER_TOLERANCE = 1e-12;
const HUBER_ITERATIONS = 500;

/** Robust fit; weights are 1 for ordinary points and below 1 for far ones. */
export type HuberFit = { parameters: number[]; scale: number; weights: Float64Array };

/**
 * Huber M-estimate of a linear model by iteratively reweighted least squares; the scale is re-estimated at each
 * step as the median absolute residual / 0.6745.
 *
 * @param columns p arrays of n values
 * @param y n values
 * @param options k [-]; maximumIterations [-]
 * @returns parameters in the order of the columns, scale [unit of y], weights [-]
 * @range n > p; far points in y, not in the columns
 * @source Huber, Robust Statistics, 1981, sect. 7.8; Venables & Ripley, Modern Applied Statistics with S, 4th ed. 2002, sect. 6.5
 * @check tests/published/trend-statistics.test.ts
 */
export function huberFit(
  columns: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
  options: { k?: number; maximumIterations?: number } = {},
): HuberFit {
  const k = options.k ?? HUBER_K;
  const steps = options.maximumIterations ?? HUBER_ITERATIONS;
  const weights = new Float64Array(y.length).fill(1);
  let parameters = leastSquares(columns, y).parameters;
  let scale = 0;
  for (let i = 0; i < steps; i++) {
    const residuals = residualsOf(columns, y, parameters);
    scale = median(residuals.map(Math.abs)) / NORMAL_QUARTILE;
    if (!(scale > 0)) break;
    for (let j = 0; j < weights.length; j++) weights[j] = Math.min(1, (k * scale) / Math.abs(residuals[j]!));
    const next = leastSquares(columns, y, weights).parameters;
    const isSettled = next.every((value, j) => Math.abs(value - parameters[j]!) <= HUBER_TOLERANCE * Math.abs(value));
    parameters = next;
    if (isSettled) break;
  }
  return { parameters, scale, weights };
}

/**
 * Huber-weighted straight line.
 *
 * @param x n values [any unit]
 * @param y n values [any unit]
 * @returns intercept, slope, scale of the residuals [unit of y] and weights [-]
 * @range n > 2
 * @source Venables & Ripley, Modern Applied Statistics with S, 4th ed. 2002, sect. 6.5
 * @check tests/published/trend-statistics.test.ts
 */
export function huberLine(x: ArrayLike<number>, y: ArrayLike<number>) {
  const { parameters, scale, weights } = huberFit([new Float64Array(x.length).fill(1), x], y);
  return { intercept: parameters[0]!, slope: parameters[1]!, scale, weights };
}

function residualsOf(columns: readonly ArrayLike<number>[], y: ArrayLike<number>, parameters: number[]): Float64Array {
  return Float64Array.from(y, (value, i) =>
    columns.reduce((rest, column, j) => rest - parameters[j]! * column[i]!, value),
  );
}
