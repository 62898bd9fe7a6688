import { stepCorrelations } from '../fit/autoregressive';
import type { DailyFigures } from './daily-figures';
import { formColumn } from './form-column';
import type { GrowthModelName } from './growth';
import { logPriorVolume, type PriorRow, priorRows, type RatePrior } from './rate-prior';

/** Figures with the noise taken out of the way: every row has unit variance and is uncorrelated with the others. */
export type WhitenedFigures = RowFactors & {
  t: Float64Array;
  ones: Float64Array;
  target: Float64Array;
  /** The level that fits best, and what it leaves of the target. */
  level: number;
  aboveLevel: Float64Array;
  /** Sums of the squares of ones and of what the level leaves. */
  onesSquared: number;
  squaresAboveLevel: number;
  /** Room for the column of one form, overwritten by each fit. */
  form: Float64Array;
  prior: RatePrior | null;
};

/** A value v becomes the row own·v − before·(v of the row before it): division by the deviations and `whiten` in one. */
type RowFactors = { own: Float64Array; before: Float64Array };

/** Least squares of one curve with a given shape; covariances for rows of unit variance. */
export type CurveFit = {
  shape: number;
  r0: number;
  amplitude: number;
  r0Variance: number;
  amplitudeVariance: number;
  covariance: number;
  /** Of the curve with its amplitude not negative, the prior's row included. */
  residualSumOfSquares: number;
  /** Where a prior rate is given: log of how likely it makes the figures, apart from the residuals [-]; else 0. */
  logPriorVolume: number;
};

/** Below this share of its square, what the level leaves of a form is rounding: the form is level itself. */
const LEAST_RISE = 1e-12;
/** Squares that are left over are a difference of sums; below this share of those too much of it would be rounding. */
const LEAST_DIFFERENCE = 1e-3;

/**
 * Divides daily figures by their deviations and takes the autocorrelation out.
 *
 * @param figures daily figures
 * @param phi autocorrelation over one day [-]
 * @param prior rate prior, or null
 * @returns whitened figures [-]
 * @range 0 ≤ phi < 1
 * @source Pinheiro & Bates, Mixed-Effects Models in S and S-PLUS, 2000, sect. 5.1
 * @check tests/core/growth/curve-fit.test.ts
 */
export function whitenFigures(figures: DailyFigures, phi: number, prior: RatePrior | null): WhitenedFigures {
  const { t, y } = figures;
  const factors = rowFactors(figures, phi);
  const ones = rowsOf(factors, new Float64Array(t.length).fill(1));
  const target = rowsOf(factors, y);
  const onesSquared = dot(ones, ones);
  const level = dot(ones, target) / onesSquared;
  const aboveLevel = new Float64Array(t.length);
  for (let i = 0; i < t.length; i++) aboveLevel[i] = target[i]! - level * ones[i]!;
  return {
    ...factors,
    t,
    ones,
    target,
    level,
    aboveLevel,
    onesSquared,
    squaresAboveLevel: dot(aboveLevel, aboveLevel),
    form: new Float64Array(t.length),
    prior,
  };
}

function rowFactors({ t, deviation }: DailyFigures, phi: number): RowFactors {
  const correlations = stepCorrelations(t, phi);
  const own = new Float64Array(t.length);
  const before = new Float64Array(t.length);
  for (let i = 0; i < t.length; i++) {
    const rho = correlations[i]!;
    const root = Math.sqrt(1 - rho * rho);
    own[i] = 1 / (deviation[i]! * root);
    before[i] = i === 0 ? 0 : rho / (deviation[i - 1]! * root);
  }
  return { own, before };
}

function rowsOf({ own, before }: RowFactors, values: Float64Array): Float64Array {
  const rows = new Float64Array(values.length);
  for (let i = 0; i < rows.length; i++)
    rows[i] = own[i]! * values[i]! - (i === 0 ? 0 : before[i]! * values[i - 1]!);
  return rows;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/**
 * Generalised least squares of r0 and the amplitude of one curve; the prior enters as one more observation. What the level
 * leaves of the figures is set against what it leaves of the form.
 *
 * @param figures whitened figures, at least one
 * @param name growth model
 * @param shape its delay, exponent or time constant
 * @returns parameters, covariances for unit variance and residual sum of squares; amplitude 0 where not determined
 * @range any
 * @source Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, sect. 9.2; Frisch & Waugh, Econometrica 1 (1933) 387-401
 * @check tests/core/growth/curve-fit.test.ts
 */
export function fitCurve(figures: WhitenedFigures, name: GrowthModelName, shape: number): CurveFit {
  const { t, prior, onesSquared, level } = figures;
  // No growth is a finding of its own, of which no rate is expected.
  if (name === 'none') return levelFit(figures, shape, figures.squaresAboveLevel);
  const sums = formProducts(figures, formColumn(name, shape, { t, out: figures.form }));
  const rows = priorRows(prior, name, shape);
  const share = sums.ones / onesSquared;
  let rise = sums.form - share * sums.ones;
  let product = sums.target;
  let whole = figures.squaresAboveLevel;
  for (const row of rows) {
    rise += row.form * row.form;
    product += row.form * row.target;
    whole += row.target * row.target;
  }
  if (!(rise > LEAST_RISE * (rise + share * sums.ones))) return levelFit(figures, shape, whole);
  const amplitude = product / rise;
  const left = whole - Math.max(amplitude, 0) * product;
  return {
    shape,
    r0: level - amplitude * share,
    amplitude,
    r0Variance: 1 / onesSquared + (share * share) / rise,
    amplitudeVariance: 1 / rise,
    covariance: -share / rise,
    residualSumOfSquares:
      left > LEAST_DIFFERENCE * whole ? left : residualSquares(figures, rows, { amplitude, share }),
    logPriorVolume: prior === null ? 0 : logPriorVolume(amplitude, 1 / Math.sqrt(rise), rows[0]!.form),
  };
}

/** A curve without growth. */
function levelFit({ level, onesSquared }: WhitenedFigures, shape: number, squares: number): CurveFit {
  return {
    shape,
    r0: level,
    amplitude: 0,
    r0Variance: 1 / onesSquared,
    amplitudeVariance: 0,
    covariance: 0,
    residualSumOfSquares: squares,
    logPriorVolume: 0,
  };
}

/** Products of a form's rows with those of a level, with each other, and with what the level leaves of the figures. */
function formProducts({ own, before, ones, aboveLevel }: WhitenedFigures, form: Float64Array) {
  let byOnes = 0;
  let byForm = 0;
  let byTarget = 0;
  let last = 0;
  for (let i = 0; i < form.length; i++) {
    const value = form[i]!;
    const row = own[i]! * value - before[i]! * last;
    byOnes += ones[i]! * row;
    byForm += row * row;
    byTarget += aboveLevel[i]! * row;
    last = value;
  }
  return { ones: byOnes, form: byForm, target: byTarget };
}

/** Squares that the curve in the room for the form leaves over, row by row. */
function residualSquares(
  { own, before, ones, aboveLevel, form }: WhitenedFigures,
  rows: readonly PriorRow[],
  { amplitude, share }: { amplitude: number; share: number },
): number {
  let sum = 0;
  let last = 0;
  for (let i = 0; i < form.length; i++) {
    const row = own[i]! * form[i]! - before[i]! * last;
    const rest = aboveLevel[i]! - amplitude * (row - share * ones[i]!);
    sum += rest * rest;
    last = form[i]!;
  }
  for (const row of rows) sum += (row.target - amplitude * row.form) ** 2;
  return sum;
}
