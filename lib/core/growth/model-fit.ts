import { remembered } from '../fit/remembered';
import { aicc } from '../stats/akaike';
import { type CurveFit, fitCurve, type WhitenedFigures } from './curve-fit';
import { COARSE_WITH_OTHERS } from './form-column';
import { isShaped, placeOf, placesCovered, type ShapedName, shapeAt } from './form-grid';
import { AMPLITUDE_NAMES, SHAPE_NAMES } from './forms';
import type { FittedModel, GrowthCurve, GrowthModelName } from './growth';
import { type FormPrior, logDensityAt } from './pool-forms';
import { searchShape } from './shape-search';

/** The stated uncertainties count as this many values when the residual variance is estimated: they steady a young cycle. */
const PRIOR_COUNT = 2;
/** Curves with a smaller share of their model than this are dropped. */
const LEAST_SHARE = 1e-3;
/**
 * Shapes that the figures alone can tell: delay and time constant as shares of the last age (a time constant of 5 times
 * it cannot be told from a straight line); exponent.
 */
const TOLD_BY_FIGURES: Record<ShapedName, readonly [number, number]> = {
  'delayed-linear': [0.02, 0.85],
  'falling-rate': [0.25, 0.95],
  asymptotic: [0.12, 5],
};
/** Places tried first over that stretch; over the longer one that other cycles may tell there are more. */
const COARSE_ALONE = 9;

/**
 * Fits one growth model: r0 and amplitude exactly for each shape (variable projection), the shape by its profile.
 *
 * @param figures whitened figures, at least one
 * @param name growth model
 * @param known systematic variance common to all figures [(m²·K/W)²], added to the variance of r0; what other cycles
 *   say of the form, or null
 * @returns model with parameters, covariance, AICc and its curves; the weight is set by the caller
 * @range any
 * @source Golub & Pereyra, SIAM J. Numer. Anal. 10 (1973) 413-432 (variable projection)
 * @check tests/core/growth/fit-growth.test.ts
 */
export function fitModel(
  figures: WhitenedFigures,
  name: GrowthModelName,
  known: { systematicVariance: number; forms: FormPrior | null },
): FittedModel {
  const { systematicVariance, forms } = known;
  const parametersFitted = name === 'none' ? 2 : SHAPE_NAMES[name] === null ? 3 : 4;
  const count = figures.t.length + PRIOR_COUNT + (figures.prior === null ? 0 : 1);
  const squares = (fit: CurveFit) => fit.residualSumOfSquares + PRIOR_COUNT;
  const criterion = (fit: CurveFit) =>
    count * Math.log(squares(fit) / count) -
    (forms === null ? 0 : 2 * (logDensityAt(forms, name, fit.shape) + fit.logPriorVolume));
  const { best, fits, stretch } = fitShapes(figures, name, { criterion, forms });
  const criteria = fits.map(criterion);
  const shares = sharesOf(criteria, criterion(best));
  const curves = fits.flatMap((fit, k): GrowthCurve[] => {
    if (!(shares[k]! > 0)) return [];
    const variance = squares(fit) / (count - parametersFitted + 1);
    return [
      {
        shape: fit.shape,
        weight: shares[k]!,
        r0: fit.r0,
        amplitude: fit.amplitude,
        r0Variance: fit.r0Variance * variance + systematicVariance,
        amplitudeVariance: fit.amplitudeVariance * variance,
        covariance: fit.covariance * variance,
      },
    ];
  });
  return {
    name,
    parameters: parametersOf(figures, name, best),
    covariance: covarianceOf(name, curves),
    weight: 0,
    aicc:
      forms === null
        ? aicc(squares(best), parametersFitted, count)
        : expectedCriterion(name, { forms, criteria, stretch, hasRate: figures.prior !== null }),
    curves,
  };
}

/** Shares of the curves in their model by what each criterion is worse than the least, adding to 1; 0 for hopeless ones. */
function sharesOf(criteria: readonly number[], least: number): number[] {
  const weights = criteria.map((criterion) => Math.exp((least - criterion) / 2));
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  const kept = weights.map((weight) => (weight > LEAST_SHARE * all ? weight : 0));
  const sum = kept.reduce((total, weight) => total + weight, 0);
  return kept.map((weight) => weight / sum);
}

/**
 * −2·log of the likelihood averaged over the shapes that other cycles lead to expect, less their votes for the model: the
 * counterpart of AICc where shapes, and with a prior rate the amplitude, are not free.
 */
function expectedCriterion(
  name: GrowthModelName,
  known: { forms: FormPrior; criteria: readonly number[]; stretch: number; hasRate: boolean },
): number {
  const { forms, criteria, stretch, hasRate } = known;
  const least = Math.min(...criteria);
  const mean =
    criteria.reduce((sum, criterion) => sum + Math.exp((least - criterion) / 2), 0) / criteria.length;
  const free = name === 'none' || hasRate ? 2 : 3;
  return (
    least - 2 * Math.log(mean * shareSearched(name, stretch)) - 2 * Math.log(forms.votes[name]) + 2 * free
  );
}

/** Share of all places of a model that the stretch is. */
function shareSearched(name: GrowthModelName, stretch: number): number {
  if (!isShaped(name)) return 1;
  const [from, to] = placesCovered(name);
  return Math.max(stretch, Number.EPSILON) / (to - from);
}

type Search = { criterion: (fit: CurveFit) => number; forms: FormPrior | null };

function fitShapes(figures: WhitenedFigures, name: GrowthModelName, { criterion, forms }: Search) {
  if (!isShaped(name)) {
    const best = fitCurve(figures, name, 0);
    return { best, fits: [best], stretch: 0 };
  }
  const { shapeOf, range, coarse } = searched(name, Math.max(figures.t.at(-1)!, 1), forms);
  const at = remembered((place) => fitCurve(figures, name, shapeOf(place)));
  const level = levelUpTo(figures, name, { forms, range });
  const { best, places, stretch } = searchShape((place) => criterion(at(Math.max(place, level))), {
    range,
    coarse,
  });
  return { best: at(best), fits: places.map(at), stretch };
}

/**
 * Place up to which the criterion is the same: delays before the first figure leave one straight line where nothing else is
 * known of them. The same to the last digit, lest rounding lead the search.
 */
function levelUpTo(
  { t, prior }: WhitenedFigures,
  name: ShapedName,
  { forms, range }: { forms: FormPrior | null; range: readonly [number, number] },
): number {
  if (name !== 'delayed-linear' || forms !== null || prior !== null) return range[0];
  return Math.min(Math.max(t[0]! / Math.max(t.at(-1)!, 1), range[0]), range[1]);
}

/** Shapes that the figures can tell; with other cycles to go by also any that those may tell. */
function searched(name: ShapedName, last: number, forms: FormPrior | null) {
  const scale = name === 'falling-rate' ? 1 : last;
  const told = TOLD_BY_FIGURES[name];
  // Figures alone leave every delay of the record equally likely, every time constant equally likely by its logarithm.
  if (forms === null && name === 'delayed-linear')
    return { shapeOf: (place: number) => place * scale, range: told, coarse: COARSE_ALONE };
  const shapeOf = (place: number) => shapeAt(name, place);
  const [low, high] = [placeOf(name, told[0] * scale), placeOf(name, told[1] * scale)];
  if (forms === null) return { shapeOf, range: [low, high] as const, coarse: COARSE_ALONE };
  const [from, to] = placesCovered(name);
  return {
    shapeOf,
    range: [Math.min(low, from), Math.max(high, to)] as const,
    coarse: COARSE_WITH_OTHERS,
  };
}

/** Parameters of the best curve; a curve that would fall becomes level. */
function parametersOf(
  figures: WhitenedFigures,
  name: GrowthModelName,
  best: CurveFit,
): Record<string, number> {
  const isGrowing = best.amplitude > 0;
  const parameters: Record<string, number> = { r0: isGrowing ? best.r0 : fitCurve(figures, 'none', 0).r0 };
  const amplitude = AMPLITUDE_NAMES[name];
  const shape = SHAPE_NAMES[name];
  if (amplitude !== null) parameters[amplitude] = isGrowing ? best.amplitude : 0;
  if (shape !== null) parameters[shape] = best.shape;
  return parameters;
}

/** Covariance of r0, amplitude and shape over the model's curves, in the order of the parameters. */
function covarianceOf(name: GrowthModelName, curves: GrowthCurve[]): number[][] {
  const size = name === 'none' ? 1 : SHAPE_NAMES[name] === null ? 2 : 3;
  const values = curves.map((curve) => [curve.r0, curve.amplitude, curve.shape]);
  const mean = [0, 1, 2].map((i) => curves.reduce((sum, curve, k) => sum + curve.weight * values[k]![i]!, 0));
  const within = (curve: GrowthCurve, i: number, j: number) => {
    if (i > 1 || j > 1) return 0;
    if (i !== j) return curve.covariance;
    return i === 0 ? curve.r0Variance : curve.amplitudeVariance;
  };
  const entry = (i: number, j: number) =>
    curves.reduce((sum, curve, k) => {
      const between = (values[k]![i]! - mean[i]!) * (values[k]![j]! - mean[j]!);
      return sum + curve.weight * (between + within(curve, i, j));
    }, 0);
  return Array.from({ length: size }, (_, i) => Array.from({ length: size }, (_, j) => entry(i, j)));
}
