import { aicc } from '../stats/akaike';
import { type CurveFit, fitCurve, type WhitenedFigures } from './curve-fit';
import { AMPLITUDE_NAMES, SHAPE_NAMES } from './forms';
import type { FittedModel, GrowthCurve, GrowthModelName } from './growth';
import { searchShape } from './shape-search';

/** The stated uncertainties count as this many values when the residual variance is estimated: they steady a young cycle. */
const PRIOR_COUNT = 2;
/** Curves with a smaller share of their model than this are dropped. */
const LEAST_SHARE = 1e-3;
/**
 * Ranges searched: delay as a share of the last age; exponent; time constant relative to the last age, which from 5
 * on cannot be told from a straight line.
 */
const DELAY_RANGE = [0.02, 0.85] as const;
const EXPONENT_RANGE = [0.25, 0.95] as const;
const TIME_CONSTANT_RANGE = [Math.log(0.12), Math.log(5)] as const;

type ShapedName = 'delayed-linear' | 'falling-rate' | 'asymptotic';
const PLACES: Record<
  ShapedName,
  { range: readonly [number, number]; shapeAt: (place: number, last: number) => number }
> = {
  'delayed-linear': { range: DELAY_RANGE, shapeAt: (place, last) => place * last },
  'falling-rate': { range: EXPONENT_RANGE, shapeAt: (place) => place },
  asymptotic: { range: TIME_CONSTANT_RANGE, shapeAt: (place, last) => Math.exp(place) * last },
};

/**
 * Fits one growth model: r0 and amplitude exactly for each shape (variable projection), the shape by its profile.
 *
 * @param figures whitened figures, at least one
 * @param name growth model
 * @param systematicVariance common to all figures [(m²·K/W)²], added to the variance of r0
 * @returns model with parameters, covariance, AICc and its curves; the weight is set by the caller
 * @range any
 * @source Golub & Pereyra, SIAM J. Numer. Anal. 10 (1973) 413-432 (variable projection)
 * @check tests/core/growth/fit-growth.test.ts
 */
export function fitModel(
  figures: WhitenedFigures,
  name: GrowthModelName,
  systematicVariance: number,
): FittedModel {
  const parametersFitted = name === 'none' ? 2 : SHAPE_NAMES[name] === null ? 3 : 4;
  const count = figures.t.length + PRIOR_COUNT + (figures.prior === null ? 0 : 1);
  const squares = (fit: CurveFit) => fit.residualSumOfSquares + PRIOR_COUNT;
  const criterion = (fit: CurveFit) => count * Math.log(squares(fit) / count);
  const { best, fits } = fitShapes(figures, name, criterion);
  const curves = fits.map((fit): GrowthCurve => {
    const variance = squares(fit) / (count - parametersFitted + 1);
    return {
      shape: fit.shape,
      weight: Math.exp((criterion(best) - criterion(fit)) / 2),
      r0: fit.r0,
      amplitude: fit.amplitude,
      r0Variance: fit.r0Variance * variance + systematicVariance,
      amplitudeVariance: fit.amplitudeVariance * variance,
      covariance: fit.covariance * variance,
    };
  });
  const shared = sharedOut(curves);
  return {
    name,
    parameters: parametersOf(figures, name, best),
    covariance: covarianceOf(name, shared),
    weight: 0,
    aicc: aicc(squares(best), parametersFitted, count),
    curves: shared,
  };
}

function fitShapes(figures: WhitenedFigures, name: GrowthModelName, criterion: (fit: CurveFit) => number) {
  if (name === 'none' || name === 'linear') {
    const best = fitCurve(figures, name, 0);
    return { best, fits: [best] };
  }
  const { range, shapeAt } = PLACES[name];
  const last = Math.max(figures.t.at(-1)!, 1);
  const at = (place: number) => fitCurve(figures, name, shapeAt(place, last));
  const { best, places } = searchShape((place) => criterion(at(place)), range);
  return { best: at(best), fits: places.map(at) };
}

/** Weights made to add to 1, hopeless curves dropped. */
function sharedOut(curves: GrowthCurve[]): GrowthCurve[] {
  const all = curves.reduce((sum, curve) => sum + curve.weight, 0);
  const kept = curves.filter((curve) => curve.weight > LEAST_SHARE * all);
  const sum = kept.reduce((total, curve) => total + curve.weight, 0);
  return kept.map((curve) => ({ ...curve, weight: curve.weight / sum }));
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
