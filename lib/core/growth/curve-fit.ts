import { stepCorrelations, whiten } from '../fit/autoregressive';
import { normalCdf } from '../stats/normal';
import type { DailyFigures } from './daily-figures';
import { formColumn } from './form-column';
import { growthForm } from './forms';
import type { GrowthModelName } from './growth';

/** What earlier cycles or like units say: the mean rate from the start of a cycle to an age. */
export type RatePrior = {
  /** [m²·K/W per day] */
  ratePerDay: number;
  /** Standard uncertainty of it for a new cycle [m²·K/W per day], > 0. */
  ratePerDayUncertainty: number;
  /** Age up to which it is a mean [days]. */
  overDays: number;
  /** Asymptote that cycles of asymptotic growth came to, with its standard uncertainty for a new cycle [m²·K/W]. */
  asymptote?: { value: number; uncertainty: number } | undefined;
};

/** Figures with the noise taken out of the way: every row has unit variance and is uncorrelated with the others. */
export type WhitenedFigures = {
  t: Float64Array;
  deviation: Float64Array;
  correlations: Float64Array;
  ones: Float64Array;
  target: Float64Array;
  /** √(1 − ρ²) of each row [-], and sums over the rows: ones·ones, ones·target. */
  roots: Float64Array;
  onesSquared: number;
  onesTarget: number;
  /** Room for the column of one form, overwritten by each fit. */
  form: Float64Array;
  prior: RatePrior | null;
};

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

/** Below this share of its largest value the determinant of two columns is rounding: they are the same column. */
const LEAST_DETERMINANT = 1e-12;
/** A curve without growth. */
const LEVEL = { amplitude: 0, amplitudeVariance: 0, covariance: 0, logPriorVolume: 0 };

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
  const { t, y, deviation } = figures;
  const correlations = stepCorrelations(t, phi);
  const ones = whiten(
    correlations,
    deviation.map((value) => 1 / value),
  );
  const target = whiten(
    correlations,
    y.map((value, i) => value / deviation[i]!),
  );
  return {
    t,
    deviation,
    correlations,
    ones,
    target,
    roots: correlations.map((rho) => Math.sqrt(1 - rho * rho)),
    onesSquared: dot(ones, ones),
    onesTarget: dot(ones, target),
    form: new Float64Array(t.length),
    prior,
  };
}

/**
 * Generalised least squares of r0 and the amplitude of one curve; the prior enters as one more observation.
 *
 * @param figures whitened figures, at least one
 * @param name growth model
 * @param shape its delay, exponent or time constant
 * @returns parameters, covariances for unit variance and residual sum of squares; amplitude 0 where not determined
 * @range any
 * @source Draper & Smith, Applied Regression Analysis, 3rd ed. 1998, sect. 9.2
 * @check tests/core/growth/curve-fit.test.ts
 */
export function fitCurve(figures: WhitenedFigures, name: GrowthModelName, shape: number): CurveFit {
  const { t, prior, onesSquared: aa, onesTarget: az } = figures;
  const scale = growthForm(name, shape, Math.max(t.at(-1)!, 1)) || 1;
  const form = whitenedForm(figures, name, { shape, scale });
  const row = priorRow(prior, name, { shape, scale });
  const told = asymptoteRow(prior, name, scale);
  const products = formProducts(figures, form);
  const ab = products.ones;
  const bb = products.form + row.form ** 2 + told.form ** 2;
  const bz = products.target + row.form * row.target + told.form * told.target;
  const determinant = aa * bb - ab * ab;
  const level = az / aa;
  const squares = (r0: number, gain: number) =>
    residualSquares(figures, form, [r0, gain]) +
    (row.target - gain * row.form) ** 2 +
    (told.target - gain * told.form) ** 2;
  // No growth is a finding of its own, of which no rate is expected.
  if (name === 'none') {
    const residualSumOfSquares = residualSquares(figures, form, [level, 0]);
    return { ...LEVEL, shape, r0: level, r0Variance: 1 / aa, residualSumOfSquares };
  }
  if (!(determinant > LEAST_DETERMINANT * aa * bb)) {
    return { ...LEVEL, shape, r0: level, r0Variance: 1 / aa, residualSumOfSquares: squares(level, 0) };
  }
  const gain = (aa * bz - ab * az) / determinant;
  const r0 = (bb * az - ab * bz) / determinant;
  return {
    shape,
    r0,
    amplitude: gain / scale,
    r0Variance: bb / determinant,
    amplitudeVariance: aa / determinant / scale ** 2,
    covariance: -ab / determinant / scale,
    residualSumOfSquares: gain > 0 ? squares(r0, gain) : squares(level, 0),
    logPriorVolume: prior === null ? 0 : logPriorVolume(gain, Math.sqrt(aa / determinant), row.form),
  };
}

/**
 * Log of the integral over the amplitude, above 0, of prior and likelihood, relative to the likelihood at its peak: how much
 * of what the prior allows the figures leave. Without it a curve that hides growth in a small amplitude would win over one
 * whose growth is still to come.
 */
function logPriorVolume(gain: number, deviation: number, priorPrecision: number): number {
  if (!(priorPrecision > 0)) return Number.NEGATIVE_INFINITY;
  const positive = normalCdf(Math.max(gain, 0) / deviation);
  return Math.log(priorPrecision * deviation * positive);
}

/** The form over its scale and the deviations, with the noise's correlation taken out as `whiten` does. */
function whitenedForm(
  { t, deviation, correlations, roots, form }: WhitenedFigures,
  name: GrowthModelName,
  { shape, scale }: { shape: number; scale: number },
): Float64Array {
  formColumn(name, shape, { t, out: form });
  let before = 0;
  for (let i = 0; i < form.length; i++) {
    const value = form[i]! / (scale * deviation[i]!);
    form[i] = (value - correlations[i]! * before) / roots[i]!;
    before = value;
  }
  return form;
}

function formProducts({ ones, target }: WhitenedFigures, form: Float64Array) {
  const sums = { ones: 0, form: 0, target: 0 };
  for (let i = 0; i < form.length; i++) {
    const value = form[i]!;
    sums.ones += ones[i]! * value;
    sums.form += value * value;
    sums.target += value * target[i]!;
  }
  return sums;
}

/** Mean rate from age 0 to overDays of the curve with unit gain, in units of the prior's uncertainty. */
function priorRow(
  prior: RatePrior | null,
  name: GrowthModelName,
  { shape, scale }: { shape: number; scale: number },
) {
  if (prior === null) return { form: 0, target: 0 };
  const { ratePerDay, ratePerDayUncertainty, overDays } = prior;
  const form = growthForm(name, shape, overDays) / (scale * overDays);
  return { form: form / ratePerDayUncertainty, target: ratePerDay / ratePerDayUncertainty };
}

/** The asymptote of the curve with unit gain, in units of the expected asymptote's uncertainty; nothing for other models. */
function asymptoteRow(prior: RatePrior | null, name: GrowthModelName, scale: number) {
  if (name !== 'asymptotic' || prior?.asymptote === undefined) return { form: 0, target: 0 };
  const { value, uncertainty } = prior.asymptote;
  return { form: 1 / (scale * uncertainty), target: value / uncertainty };
}

function residualSquares(
  { ones, target }: WhitenedFigures,
  form: Float64Array,
  [r0, gain]: [number, number],
): number {
  let sum = 0;
  for (let i = 0; i < target.length; i++) {
    const rest = target[i]! - r0 * ones[i]! - gain * form[i]!;
    sum += rest * rest;
  }
  return sum;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
