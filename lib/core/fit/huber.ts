import { median } from '../stats/quantile';
import { weightedLine } from '../stats/weighted-line';
import { leastSquares } from './least-squares';

/** Huber's k for 95 % efficiency on normal data. */
export const HUBER_K = 1.345;
/** Φ⁻¹(3/4) as rounded in print: the median absolute residual over this estimates the standard deviation. */
const NORMAL_QUARTILE = 0.6745;
const HUBER_TOLERANCE = 1e-12;
const HUBER_ITERATIONS = 500;

/** Where full weight ends, in robust standard deviations, and the most steps allowed. */
export type HuberOptions = { k?: number; maximumIterations?: number };

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
  options: HuberOptions = {},
): HuberFit {
  return reweight(
    y,
    options,
    (weights) => leastSquares(columns, y, weights).parameters,
    (parameters, i) => columns.reduce((sum, column, j) => sum + parameters[j]! * column[i]!, 0),
  );
}

type Solve = (weights: Float64Array) => number[];
type Evaluate = (parameters: number[], i: number) => number;

function reweight(y: ArrayLike<number>, options: HuberOptions, solve: Solve, valueAt: Evaluate): HuberFit {
  const k = options.k ?? HUBER_K;
  const steps = options.maximumIterations ?? HUBER_ITERATIONS;
  const weights = new Float64Array(y.length).fill(1);
  const distances = new Float64Array(y.length);
  let parameters = solve(weights);
  let scale = 0;
  for (let step = 0; step < steps; step++) {
    for (let i = 0; i < y.length; i++) distances[i] = Math.abs(y[i]! - valueAt(parameters, i));
    scale = median(distances) / NORMAL_QUARTILE;
    if (!(scale > 0)) break;
    for (let i = 0; i < weights.length; i++) weights[i] = Math.min(1, (k * scale) / distances[i]!);
    const next = solve(weights);
    const isSettled = next.every(
      (value, j) => Math.abs(value - parameters[j]!) <= HUBER_TOLERANCE * Math.abs(value),
    );
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
 * @param options k [-]; maximumIterations [-]
 * @returns intercept, slope, scale of the residuals [unit of y] and weights [-]
 * @range n > 2
 * @source Venables & Ripley, Modern Applied Statistics with S, 4th ed. 2002, sect. 6.5
 * @check tests/published/trend-statistics.test.ts
 */
export function huberLine(x: ArrayLike<number>, y: ArrayLike<number>, options: HuberOptions = {}) {
  const solve: Solve = (weights) => {
    const line = weightedLine(x, y, weights);
    return [line.intercept, line.slope];
  };
  const fit = reweight(y, options, solve, (parameters, i) => parameters[0]! + parameters[1]! * x[i]!);
  return { intercept: fit.parameters[0]!, slope: fit.parameters[1]!, scale: fit.scale, weights: fit.weights };
}
