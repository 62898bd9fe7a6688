import { medianNear } from '../stats/median-in-place';
import { lineThrough } from '../stats/weighted-line';
import { leastSquares } from './least-squares';

/** Huber's k for 95 % efficiency on normal data. */
export const HUBER_K = 1.345;
/** Φ⁻¹(3/4) as rounded in print: the median absolute residual over this estimates the standard deviation. */
const NORMAL_QUARTILE = 0.6745;
const HUBER_TOLERANCE = 1e-12;
const HUBER_ITERATIONS = 500;

/**
 * Where full weight ends, in robust standard deviations, and the most steps allowed; a fit that serves to find what is outlying may
 * end where a step changes the scale by no more than `scaleTolerance`, as a share of it.
 */
export type HuberOptions = { k?: number; maximumIterations?: number; scaleTolerance?: number };

/** Robust fit; weights are 1 for ordinary points and below 1 for far ones. */
export type HuberFit = { parameters: number[]; scale: number; weights: Float64Array };

/**
 * Huber M-estimate of a linear model by iteratively reweighted least squares; the scale is re-estimated at each
 * step as the median absolute residual / 0.6745.
 *
 * @param columns p arrays of n values
 * @param y n values
 * @param options k [-]; maximumIterations [-]; scaleTolerance [-]
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
  return reweight(y.length, options, {
    solve: (weights) => leastSquares(columns, y, weights).parameters,
    writeDistances: (parameters, out) => {
      for (let i = 0; i < out.length; i++)
        out[i] = Math.abs(y[i]! - columns.reduce((sum, column, j) => sum + parameters[j]! * column[i]!, 0));
    },
  });
}

/** A linear model: its parameters by weighted least squares, and how far the values lie from it. */
type Linear = {
  solve: (weights: Float64Array) => number[];
  writeDistances: (parameters: number[], out: Float64Array) => void;
};

function reweight(count: number, options: HuberOptions, { solve, writeDistances }: Linear): HuberFit {
  const k = options.k ?? HUBER_K;
  const steps = options.maximumIterations ?? HUBER_ITERATIONS;
  const weights = new Float64Array(count).fill(1);
  const distances = new Float64Array(count);
  const room = new Float64Array(count);
  let parameters = solve(weights);
  let middle = Number.NaN;
  for (let step = 0; step < steps; step++) {
    writeDistances(parameters, distances);
    const last = middle;
    middle = medianNear(distances, middle, room);
    if (isSettledScale(last, middle, options.scaleTolerance)) break;
    const scale = middle / NORMAL_QUARTILE;
    if (!(scale > 0)) break;
    for (let i = 0; i < count; i++) weights[i] = Math.min(1, (k * scale) / distances[i]!);
    const next = solve(weights);
    const isSettled = next.every(
      (value, j) => Math.abs(value - parameters[j]!) <= HUBER_TOLERANCE * Math.abs(value),
    );
    parameters = next;
    if (isSettled) break;
  }
  return { parameters, scale: middle / NORMAL_QUARTILE, weights };
}

function isSettledScale(last: number, now: number, tolerance: number | undefined): boolean {
  return tolerance !== undefined && Math.abs(now - last) <= tolerance * now;
}

/**
 * Huber-weighted straight line.
 *
 * @param x n values [any unit]
 * @param y n values [any unit]
 * @param options k [-]; maximumIterations [-]; scaleTolerance [-]
 * @returns intercept, slope, scale of the residuals [unit of y] and weights [-]
 * @range n > 2
 * @source Venables & Ripley, Modern Applied Statistics with S, 4th ed. 2002, sect. 6.5
 * @check tests/published/trend-statistics.test.ts
 */
export function huberLine(x: ArrayLike<number>, y: ArrayLike<number>, options: HuberOptions = {}) {
  const fit = reweight(y.length, options, {
    solve: (weights) => {
      const line = lineThrough(x, y, weights);
      return [line.intercept, line.slope];
    },
    writeDistances: ([intercept, slope], out) => {
      for (let i = 0; i < out.length; i++) out[i] = Math.abs(y[i]! - (intercept! + slope! * x[i]!));
    },
  });
  return { intercept: fit.parameters[0]!, slope: fit.parameters[1]!, scale: fit.scale, weights: fit.weights };
}
