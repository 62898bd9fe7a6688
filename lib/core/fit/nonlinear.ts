import { solveTriangular, triangularise, unitCovariance } from './householder';
import type { LeastSquares } from './least-squares';

/** Stop when a step changes no parameter, in units of its own influence, by more than this share. */
const STEP_TOLERANCE = 1e-11;
/** Stop when the sum of squares can fall by no more than this share. */
const GAIN_TOLERANCE = 1e-15;
export const NONLINEAR_ITERATIONS = 500;
/** Damping at the start, relative to the scaled normal matrix, and how fast it grows (Nielsen 1999). */
const FIRST_DAMPING = 1e-2;
const LARGEST_DAMPING = 1e30;
/** Share of a step over which its curvature is measured, and the curved part it may have (Transtrum & Sethna 2012). */
const CURVATURE_PROBE = 1e-3;
const LARGEST_CURVATURE = 0.75;
/** Central difference: the cube root of the rounding error balances truncation against rounding. */
const DIFFERENCE_STEP = Math.cbrt(Number.EPSILON);

/** A model y = model(parameters, x) and the data to fit it to. */
export type NonlinearProblem = {
  model: (parameters: Float64Array, x: number) => number;
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  /** 1/variance up to a factor; left out: all 1. */
  weights?: ArrayLike<number>;
  start: readonly number[];
  maximumIterations?: number;
};

/** Least squares with whether the search came to rest. */
export type NonlinearFit = LeastSquares & { isConverged: boolean; iterations: number };

/**
 * Nonlinear least squares by Levenberg–Marquardt. Damping is scaled by each parameter's own influence and all
 * tolerances are relative, so that magnitudes such as 1e-5 need no scaling by the caller.
 *
 * @param problem model, data (n values), weights and starting parameters (p values)
 * @returns parameters, covariance, standard errors (from the Jacobian at the solution)
 * @range n > p
 * @source Moré, The Levenberg-Marquardt algorithm, Lect. Notes Math. 630 (1978) 105-116; damping by Nielsen,
 *   IMM-REP-1999-05; steps too curved to trust are refused as in Transtrum & Sethna, arXiv:1201.5885 (2012)
 * @check tests/published/nist-strd.test.ts
 */
export function fitNonlinear(problem: NonlinearProblem): NonlinearFit {
  const steps = problem.maximumIterations ?? NONLINEAR_ITERATIONS;
  let parameters: Float64Array = Float64Array.from(problem.start);
  let residuals = residualsAt(problem, parameters);
  let squares = sumOfSquares(residuals);
  let jacobian = jacobianAt(problem, parameters);
  const scales = new Float64Array(parameters.length);
  let damping = FIRST_DAMPING;
  let growth = 2;
  let [isConverged, iterations] = [false, 0];
  while (!isConverged && iterations < steps && damping < LARGEST_DAMPING) {
    iterations++;
    widenScales(scales, jacobian);
    const damp = scales.map((scale) => Math.sqrt(damping) * scale);
    const step = dampedStep(jacobian, residuals, damp);
    const predicted = predictedGain(jacobian, residuals, step);
    const trial = moved(parameters, step, 1);
    const trialResiduals = residualsAt(problem, trial);
    const trialSquares = sumOfSquares(trialResiduals);
    const length = scaledLength(step, scales);
    isConverged =
      length <= STEP_TOLERANCE * scaledLength(parameters, scales) || predicted <= GAIN_TOLERANCE * squares;
    const curvature = curvatureAlong(problem, { parameters, residuals, jacobian, step });
    const bend = dampedStep(jacobian, curvature, damp);
    const isTrusted = isConverged || scaledLength(bend, scales) <= LARGEST_CURVATURE * length;
    const gain = isTrusted ? (squares - trialSquares) / predicted : -1;
    if (gain > 0) {
      [parameters, residuals, squares] = [trial, trialResiduals, trialSquares];
      jacobian = jacobianAt(problem, parameters);
      damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3);
      growth = 2;
    } else {
      damping *= growth;
      growth *= 2;
    }
  }
  return { ...summary(parameters, jacobian, squares), isConverged, iterations };
}

/** Each parameter's influence on the residuals, the largest met so far. */
function widenScales(scales: Float64Array, jacobian: Float64Array[]): void {
  jacobian.forEach((column, j) => {
    scales[j] = Math.max(scales[j]!, Math.sqrt(sumOfSquares(column)));
  });
}

/** The step that minimises |r − J·step|² + |damping·step|². */
function dampedStep(jacobian: Float64Array[], residuals: Float64Array, damping: Float64Array): Float64Array {
  const n = residuals.length;
  const columns = jacobian.map((column, j) => {
    const padded = new Float64Array(n + jacobian.length);
    padded.set(column);
    padded[n + j] = damping[j]!;
    return padded;
  });
  const target = new Float64Array(n + jacobian.length);
  target.set(residuals);
  return solveTriangular(triangularise(columns, target));
}

/** How much of |r|² the linear model says the step removes. */
function predictedGain(jacobian: Float64Array[], residuals: Float64Array, step: Float64Array): number {
  const change = product(jacobian, step);
  return change.reduce((sum, value, i) => sum + value * (2 * residuals[i]! - value), 0);
}

type Place = {
  parameters: Float64Array;
  residuals: Float64Array;
  jacobian: Float64Array[];
  step: Float64Array;
};

/** Second derivative of the residuals along the step, by a finite difference that uses the Jacobian. */
function curvatureAlong(
  problem: NonlinearProblem,
  { parameters, residuals, jacobian, step }: Place,
): Float64Array {
  const probed = residualsAt(problem, moved(parameters, step, CURVATURE_PROBE));
  const linear = product(jacobian, step);
  return probed.map(
    (value, i) => (2 / CURVATURE_PROBE) * ((value - residuals[i]!) / CURVATURE_PROBE + linear[i]!),
  );
}

function moved(parameters: Float64Array, step: Float64Array, share: number): Float64Array {
  return parameters.map((value, j) => value + share * step[j]!);
}

function product(jacobian: Float64Array[], step: Float64Array): Float64Array {
  return jacobian[0]!.map((_, i) => step.reduce((sum, value, j) => sum + jacobian[j]![i]! * value, 0));
}

function residualsAt({ model, x, y, weights }: NonlinearProblem, parameters: Float64Array): Float64Array {
  return Float64Array.from(y, (value, i) => rootWeight(weights, i) * (value - model(parameters, x[i]!)));
}

function jacobianAt(
  { model, x, weights, start }: NonlinearProblem,
  parameters: Float64Array,
): Float64Array[] {
  return Array.from(parameters, (value, j) => {
    const h = DIFFERENCE_STEP * (Math.abs(value) || Math.abs(start[j]!) || 1);
    const above = parameters.with(j, value + h);
    const below = parameters.with(j, value - h);
    const width = above[j]! - below[j]!;
    return Float64Array.from(
      x,
      (at, i) => (rootWeight(weights, i) * (model(above, at) - model(below, at))) / width,
    );
  });
}

function rootWeight(weights: ArrayLike<number> | undefined, i: number): number {
  return weights === undefined ? 1 : Math.sqrt(weights[i]!);
}

function summary(parameters: Float64Array, jacobian: Float64Array[], squares: number): LeastSquares {
  const n = jacobian[0]!.length;
  const degreesOfFreedom = n - parameters.length;
  const residualVariance = squares / degreesOfFreedom;
  const lengths = jacobian.map((column) => Math.sqrt(sumOfSquares(column)) || 1);
  const scaled = jacobian.map((column, j) => column.map((value) => value / lengths[j]!));
  const covariance = unitCovariance(triangularise(scaled, new Float64Array(n))).map((row, i) =>
    row.map((value, j) => (value * residualVariance) / (lengths[i]! * lengths[j]!)),
  );
  return {
    parameters: Array.from(parameters),
    covariance,
    standardErrors: covariance.map((row, i) => Math.sqrt(row[i]!)),
    residualSumOfSquares: squares,
    residualVariance,
    degreesOfFreedom,
  };
}

function sumOfSquares(values: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]! * values[i]!;
  return sum;
}

function scaledLength(values: Float64Array, scales: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < values.length; j++) sum += (values[j]! * scales[j]!) ** 2;
  return Math.sqrt(sum);
}
