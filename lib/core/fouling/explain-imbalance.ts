import { solveTriangular, type Triangular, triangularise, unitCovariance } from '../fit/householder';

/** Imbalances of a period in units of their random uncertainty, and what a bias of 1 of each sensor would add to them. */
export type WeightedImbalances = {
  /** One array of n values per sensor [per K or per unit share]. */
  shapes: Float64Array[];
  /** n values [-] */
  imbalance: Float64Array;
  /** Standard uncertainty of each sensor's systematic error [K or share of the flow]. */
  systematic: number[];
};

/** The same n rows in triangular form: all that any explanation needs. */
export type ReducedImbalances = { triangular: Triangular; systematic: number[] };

/** One sensor taken as biased by any amount, the others only within their stated systematic uncertainty. */
export type Explanation = {
  /** What is left unexplained [-]. */
  chiSquared: number;
  bias: number;
  biasUncertainty: number;
  /** Systematic error found for every sensor; 0 for one that states none. */
  errors: Float64Array;
};

/**
 * Reduces the weighted imbalances of a period once, so that each explanation is a small problem.
 *
 * @param weighted n rows, p sensors
 * @returns triangular form of size p, residual with every sensor free
 * @range  n ≥ p
 * @source Golub & Van Loan, Matrix Computations, 4th ed. 2013, sect. 5.3
 * @check  tests/core/fouling/suspects.test.ts
 */
export function reduceImbalances({ shapes, imbalance, systematic }: WeightedImbalances): ReducedImbalances {
  const columns = shapes.map((shape) => shape.slice());
  return { triangular: triangularise(columns, imbalance.slice()), systematic };
}

/**
 * Weighted least squares for the constant bias of one sensor, with a stated systematic error of every other sensor as one
 * more observation 0 ± u each.
 *
 * @param reduced  from `reduceImbalances`
 * @param suspect  index of the sensor whose bias is free; −1 = none: every sensor within its stated uncertainty
 * @param variance of one weighted imbalance, 1 where the readings scatter as the sensors state [-]
 * @returns χ² left, the suspect's bias with standard uncertainty (NaN for none), errors of all sensors
 * @range  sensors whose shape is not 0 throughout
 * @source generalised least squares with random effects as prior observations: Rao & Toutenburg, Linear Models, 1999, ch. 4
 * @check  tests/core/fouling/suspects.test.ts (against the full covariance matrix)
 */
export function explainImbalance(
  { triangular, systematic }: ReducedImbalances,
  suspect: number,
  variance: number,
): Explanation {
  const { size, r, rotated, residualSumOfSquares } = triangular;
  const free = systematic.flatMap((spread, j) => (j === suspect || spread > 0 ? [j] : []));
  const penalised = free.filter((j) => j !== suspect);
  const rows = size + penalised.length;
  const deviation = Math.sqrt(variance);
  const columns = free.map((j) => {
    const column = new Float64Array(rows);
    for (let row = 0; row <= j; row++) column[row] = r[row * size + j]! / deviation;
    const prior = penalised.indexOf(j);
    if (prior >= 0) column[size + prior] = 1 / systematic[j]!;
    return column;
  });
  const target = new Float64Array(rows);
  for (let row = 0; row < size; row++) target[row] = rotated[row]! / deviation;
  const solved = triangularise(columns, target);
  const solution = solveTriangular(solved);
  const at = free.indexOf(suspect);
  const errors = new Float64Array(size);
  free.forEach((j, index) => {
    errors[j] = solution[index]!;
  });
  return {
    chiSquared: solved.residualSumOfSquares + residualSumOfSquares / variance,
    bias: at < 0 ? Number.NaN : solution[at]!,
    biasUncertainty: at < 0 ? Number.NaN : Math.sqrt(unitCovariance(solved)[at]![at]!),
    errors,
  };
}
