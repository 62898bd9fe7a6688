import { orthogonalised, takeOut } from '../fit/orthogonal';
import { pivotsOf } from '../fit/pivots';
import { type StepProducts, stepProducts, whitenedProducts } from '../fit/step-products';
import type { DailyFigures } from './daily-figures';
import { formColumn } from './form-column';
import type { GrowthModelName } from './growth';

/** Autocorrelations of one day that are tried; slower noise cannot be told from growth. */
const TRIED = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95];
/** Below this many figures the autocorrelation cannot be estimated and is taken as TYPICAL. */
const FEWEST_TO_ESTIMATE = 8;
const TYPICAL = 0.3;
/** Whitened squares below this are rounding: figures without any noise say nothing about its correlation. */
const LEAST_SQUARES = 1e-9;

/**
 * Autocorrelation over one day of the noise about a smooth curve: mean of its distribution under restricted
 * maximum likelihood, so that the curve's own parameters do not bias it downwards. Gaps of any length are allowed.
 *
 * @param figures daily figures with their deviations
 * @returns φ [-], 0 to 0.95
 * @range any count; 0.3 for fewer than 8 figures
 * @source Patterson & Thompson, Biometrika 58 (1971) 545-554 (REML); Diggle, Liang & Zeger, Analysis of Longitudinal Data, 1994, sect. 4.5
 * @check tests/core/growth/noise.test.ts
 */
export function noiseAutocorrelation(figures: DailyFigures): number {
  if (figures.t.length < FEWEST_TO_ESTIMATE) return TYPICAL;
  const products = productsOf(figures);
  const criteria = TRIED.map((phi) => restrictedLikelihood(products, phi));
  const best = Math.max(...criteria);
  let sum = 0;
  let moment = 0;
  criteria.forEach((criterion, i) => {
    const weight = Math.exp(criterion - best);
    sum += weight;
    moment += weight * TRIED[i]!;
  });
  return moment / sum;
}

/**
 * Products of the curve's columns and of what they leave of the figures. Taken out beforehand, the columns change nothing of
 * the likelihood but a constant, and what is left is small enough for its products to be exact.
 */
function productsOf({ t, y, deviation, trial }: DailyFigures): StepProducts {
  const standardised = (values: Float64Array) => {
    for (let i = 0; i < values.length; i++) values[i]! /= deviation[i]!;
    return values;
  };
  const form = (name: GrowthModelName, shape: number) =>
    standardised(formColumn(name, shape, { t, out: new Float64Array(t.length) }));
  const columns = orthogonalised([
    standardised(new Float64Array(t.length).fill(1)),
    form(trial.name, trial.shape),
    trial.name === 'linear' ? form('falling-rate', 0.5) : form('linear', 0),
  ]);
  return stepProducts(t, [...columns, takeOut(columns, standardised(y.slice()))]);
}

/** Logarithm of the restricted likelihood, up to a constant. */
function restrictedLikelihood(products: StepProducts, phi: number): number {
  const { matrix, logDeterminant } = whitenedProducts(products, phi);
  const pivots = pivotsOf(matrix, products.size);
  const parameters = products.size - 1;
  const count = products.stepped.reduce((sum, { rows }) => sum + rows, 0);
  const squares = Math.max(0, pivots[parameters]!);
  let twice = logDeterminant + (count - parameters) * Math.log(squares + LEAST_SQUARES);
  for (let k = 0; k < parameters; k++) twice += Math.log(pivots[k]!);
  return -twice / 2;
}
