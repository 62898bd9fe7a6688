import { akaikeWeights } from '../stats/akaike';
import { whitenFigures } from './curve-fit';
import { type DailyFigures, dailyFigures } from './daily-figures';
import { growthColumn } from './form-column';
import { formEvidence } from './form-evidence';
import type { FittedModel, Growth, GrowthModelName } from './growth';
import { fitModel } from './model-fit';
import { noiseAutocorrelation } from './noise';
import type { FormEvidence, FormPrior } from './pool-forms';
import type { RatePrior } from './rate-prior';
import { summariseMixture } from './summarise';

/** Fewest daily figures for a straight line, and for curves and a comparison with no growth against a prior. */
export const FEWEST_FOR_LINE = 3;
export const FEWEST_FOR_CURVES = 8;
/** Age up to which a prior rate is a mean, where the caller does not say and the cycle is not older yet [days]. */
export const PRIOR_OVER_DAYS = 90;

/** Daily figures of one cycle, ascending by age and of equal length, and what else is known. */
export type GrowthInput = {
  /** Ages since the start of the cycle [days], ≥ 0. */
  ageDays: ArrayLike<number>;
  /** Daily fouling resistance [m²·K/W]; NaN days are left out. */
  foulingResistance: ArrayLike<number>;
  /** Random standard uncertainty of each [m²·K/W]; where missing or 0, the median of the others. */
  uncertainty: ArrayLike<number>;
  /** Mean rate of earlier cycles or like units over their first `overDays`; left out: none. */
  prior?: Omit<RatePrior, 'overDays'> & { overDays?: number };
  /** What earlier cycles or like units say of the form of growth; left out: nothing. */
  forms?: FormPrior;
  /** Standard uncertainty common to all figures [m²·K/W]: widens the level, not the slope. */
  systematicUncertainty?: number;
};

/**
 * Fits all growth models to the daily figures of one cycle and averages them by AICc weight.
 *
 * Weighted least squares with AR(1) noise taken out (so that the covariances allow for it) and outlying days left
 * out; rates not negative. Up to 2 figures only `none` is fitted, up to 7 `none` and `linear`. A prior rate counts
 * as one more observation: (Rf(overDays) − Rf(0))/overDays = rate ± uncertainty, and with it up to 7 figures give a line.
 *
 * @param input ageDays [days], foulingResistance and uncertainty [m²·K/W], n values each, n ≥ 0
 * @returns models, weights and model-averaged state at the last figure; without figures no models and NaN
 * @range any count and gaps; RangeError for unequal lengths or a prior without uncertainty
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, ch. 4; Pinheiro & Bates, Mixed-Effects Models in S and S-PLUS, 2000, sect. 5.1
 * @check tests/properties/growth.test.ts
 */
export function fitGrowth(input: GrowthInput): Growth {
  const figures = dailyFigures(input);
  const count = figures.t.length;
  const lastAgeDays = figures.t.at(-1) ?? 0;
  const prior = priorOf(input, lastAgeDays);
  const autocorrelation = noiseAutocorrelation(figures);
  const whitened = whitenFigures(figures, autocorrelation, prior);
  const known = { systematicVariance: (input.systematicUncertainty ?? 0) ** 2, forms: input.forms ?? null };
  const models = averaged(
    allowedModels(count, prior !== null, known.forms !== null).map((name) => fitModel(whitened, name, known)),
  );
  const spanDays = lastAgeDays - (figures.t[0] ?? 0);
  return {
    models,
    count,
    spanDays,
    lastAgeDays,
    autocorrelation,
    residualDeviation: residualDeviation(figures, models),
    isFormExpected: known.forms !== null,
    widening: 1,
    ...summariseMixture({ models, lastAgeDays, spanDays }),
  };
}

/**
 * What the figures of an ended cycle say of the form of its growth, for the cycles that follow.
 *
 * @param input figures as for `fitGrowth`; a prior is not used
 * @returns evidence for each form [-]
 * @range  any count and gaps
 * @source see `formEvidence`
 * @check  tests/core/growth/pool-forms.test.ts
 */
export function cycleEvidence(input: GrowthInput): FormEvidence {
  const figures = dailyFigures(input);
  return formEvidence(whitenFigures(figures, noiseAutocorrelation(figures), null));
}

function priorOf({ prior }: GrowthInput, lastAgeDays: number): RatePrior | null {
  if (prior === undefined) return null;
  if (!(prior.ratePerDayUncertainty > 0)) throw new RangeError('a prior rate needs an uncertainty above 0');
  return { overDays: Math.max(PRIOR_OVER_DAYS, lastAgeDays), ...prior };
}

function allowedModels(count: number, hasPrior: boolean, hasForms: boolean): GrowthModelName[] {
  if (count === 0) return [];
  if (count >= FEWEST_FOR_CURVES || (hasPrior && hasForms))
    return ['none', 'linear', 'delayed-linear', 'falling-rate', 'asymptotic'];
  if (hasPrior) return ['linear'];
  return count >= FEWEST_FOR_LINE ? ['none', 'linear'] : ['none'];
}

/** Gives each model its weight; with so few figures that no criterion is finite, all to the simplest. */
function averaged(models: FittedModel[]): FittedModel[] {
  const weights = akaikeWeights(models.map((model) => model.aicc));
  const isWeighted = weights.some((weight) => weight > 0);
  return models.map((model, i) => ({ ...model, weight: isWeighted ? weights[i]! : i === 0 ? 1 : 0 }));
}

/** Standard deviation of the residuals about the model of the greatest weight; 0 where nothing is left over. */
function residualDeviation({ t, y }: DailyFigures, models: FittedModel[]): number {
  if (models.length === 0) return Number.NaN;
  const best = models.reduce((most, model) => (model.weight > most.weight ? model : most));
  const spare = Math.max(1, t.length - Object.keys(best.parameters).length);
  const smooth = growthColumn(best, { t, out: new Float64Array(t.length) });
  let squares = 0;
  for (let i = 0; i < t.length; i++) squares += (y[i]! - smooth[i]!) ** 2;
  return Math.sqrt(squares / spare);
}
