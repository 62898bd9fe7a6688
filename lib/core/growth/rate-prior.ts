import { normalCdf } from '../stats/normal';
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

/** One observation more, in units of its uncertainty: form·amplitude is expected to be the target. */
export type PriorRow = { form: number; target: number };

/**
 * What a prior expects of a curve, as observations of its amplitude: mean rate over the first days, and its asymptote.
 *
 * @param prior rate prior, or null
 * @param name growth model
 * @param shape its delay, exponent or time constant
 * @returns rows of unit variance [W/(m²·K)] and [-], the rate's first; none without a prior
 * @range any
 * @source Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, sect. 14.8 (prior information as additional data)
 * @check tests/core/growth/curve-fit.test.ts
 */
export function priorRows(prior: RatePrior | null, name: GrowthModelName, shape: number): PriorRow[] {
  if (prior === null) return [];
  const { ratePerDay, ratePerDayUncertainty, overDays, asymptote } = prior;
  const mean = growthForm(name, shape, overDays) / overDays;
  const rate = { form: mean / ratePerDayUncertainty, target: ratePerDay / ratePerDayUncertainty };
  if (name !== 'asymptotic' || asymptote === undefined) return [rate];
  return [rate, { form: 1 / asymptote.uncertainty, target: asymptote.value / asymptote.uncertainty }];
}

/**
 * Log of the integral over the amplitude, above 0, of prior and likelihood, relative to the likelihood at its peak: how much
 * of what the prior allows the figures leave. Without it a curve that hides growth in a small amplitude would win over one
 * whose growth is still to come.
 *
 * @param amplitude least-squares value [m²·K/W, by the form's unit]
 * @param deviation its standard uncertainty, same unit
 * @param precision form of the rate's row: 1 over the prior uncertainty of the amplitude
 * @returns [-]; −Infinity where the form does not grow over the prior's days
 * @range any
 * @source Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, sect. 7.4 (marginal likelihood of a normal prior)
 * @check tests/core/growth/fit-growth.test.ts
 */
export function logPriorVolume(amplitude: number, deviation: number, precision: number): number {
  if (!(precision > 0)) return Number.NEGATIVE_INFINITY;
  const positive = normalCdf(Math.max(amplitude, 0) / deviation);
  return Math.log(precision * deviation * positive);
}
