import { stepCorrelations, whiten } from '../fit/autoregressive';
import { triangularise } from '../fit/householder';
import type { DailyFigures } from './daily-figures';
import { growthForm } from './forms';

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
  const standardised = standardise(figures);
  const criteria = TRIED.map((phi) => restrictedLikelihood(standardised, phi));
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

/** The curve's columns and the figures over their deviations, before any correlation is taken out. */
type Standardised = { t: Float64Array; columns: Float64Array[]; target: Float64Array };

function standardise({ t, y, deviation, trial }: DailyFigures): Standardised {
  const last = t.at(-1)!;
  const scale = growthForm(trial.name, trial.shape, last);
  const second = trial.name === 'linear' ? (at: number) => Math.sqrt(at / last) : (at: number) => at / last;
  const column = (value: (at: number) => number) => t.map((at, i) => value(at) / deviation[i]!);
  return {
    t,
    columns: [
      column(() => 1),
      column((at) => growthForm(trial.name, trial.shape, at) / scale),
      column(second),
    ],
    target: y.map((value, i) => value / deviation[i]!),
  };
}

/** Logarithm of the restricted likelihood, up to a constant. */
function restrictedLikelihood({ t, columns, target }: Standardised, phi: number): number {
  const rho = stepCorrelations(t, phi);
  const { r, residualSumOfSquares, size } = triangularise(
    columns.map((column) => whiten(rho, column.slice())),
    whiten(rho, target.slice()),
  );
  let criterion = -((t.length - size) / 2) * Math.log(residualSumOfSquares + LEAST_SQUARES);
  for (let k = 0; k < size; k++) criterion -= Math.log(Math.abs(r[k * size + k]!));
  // Most steps are of one day: the same correlation, and the same logarithm.
  let [known, half] = [0, 0];
  for (let i = 0; i < rho.length; i++) {
    const step = rho[i]!;
    if (step !== known) [known, half] = [step, Math.log1p(-step * step) / 2];
    criterion -= half;
  }
  return criterion;
}
