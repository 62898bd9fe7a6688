import { growthFormSlope } from './forms';
import type { Growth } from './growth';
import { EQUAL_VOTES, evaluateMixture, type Mixture, mixtureOf } from './mixture';
import { mixtureQuantile, type NormalMixture } from './normal-mixture';
import { smoothFouling } from './smooth-fouling';

/** The slope of a power of time has no limit at age 0: a younger record is taken as one day old. */
const YOUNGEST_DAYS = 1;

/** Rates below this share of their uncertainty are rounding. */
const RATE_ROUNDING = 1e-6;

type State = Pick<
  Growth,
  'ratePerDay' | 'ratePerDayUncertainty' | 'foulingResistance' | 'foulingResistanceUncertainty'
>;

/**
 * Model-averaged smooth fouling and rate at the last figure, with standard uncertainties that include the spread
 * between models. The rate is the median of the averaged distribution: its mean is drawn low by the tail of
 * flattening curves (on straight growth at 5 % noise by 2 to 3 %, the median by half of that).
 *
 * @param growth models with their curves, the age of the last figure and the length of the record [days]
 * @returns foulingResistance [m²·K/W], ratePerDay [m²·K/W per day] and their standard uncertainties; NaN without models
 * @range any
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, eq. 4.1 and 4.9
 * @check tests/core/growth/fit-growth.test.ts
 */
export function summariseMixture(growth: Pick<Growth, 'models' | 'lastAgeDays' | 'spanDays'>): State {
  if (growth.models.length === 0) {
    return {
      ratePerDay: Number.NaN,
      ratePerDayUncertainty: Number.NaN,
      foulingResistance: Number.NaN,
      foulingResistanceUncertainty: Number.NaN,
    };
  }
  const mixture = evaluateMixture(mixtureOf(growth, EQUAL_VOTES), growth.lastAgeDays);
  const level = central(mixture);
  const rate = central(rateOf(mixture, Math.max(growth.lastAgeDays, YOUNGEST_DAYS)));
  return {
    // A root finder's idea of nothing is not a rate.
    ratePerDay: rate.value > RATE_ROUNDING * rate.deviation ? rate.value : 0,
    // Too few figures for a line: the rate is known no better than the level over the length of the record.
    ratePerDayUncertainty:
      growth.models.length > 1 || growth.models[0]!.name !== 'none'
        ? rate.deviation
        : level.deviation / Math.max(growth.spanDays, YOUNGEST_DAYS),
    foulingResistance: smoothFouling(growth, growth.lastAgeDays),
    foulingResistanceUncertainty: level.deviation,
  };
}

/** Slope of every component at an age [m²·K/W per day]. */
function rateOf(
  { weights, slices, amplitudes, amplitudeVariances }: Mixture,
  ageDays: number,
): NormalMixture {
  const means = new Float64Array(weights.length);
  const deviations = new Float64Array(weights.length);
  for (const { name, shape, from, to } of slices) {
    const slope = growthFormSlope(name, shape, ageDays);
    for (let i = from; i < to; i++) {
      means[i] = amplitudes[i]! * slope;
      deviations[i] = Math.sqrt(amplitudeVariances[i]!) * slope;
    }
  }
  return { weights, means, deviations };
}

/** Median and standard deviation (about the mean) of a mixture of normal distributions. */
function central(mixture: NormalMixture): { value: number; deviation: number } {
  const { weights, means, deviations } = mixture;
  let mean = 0;
  for (let i = 0; i < weights.length; i++) mean += weights[i]! * means[i]!;
  let variance = 0;
  for (let i = 0; i < weights.length; i++) {
    variance += weights[i]! * (deviations[i]! ** 2 + (means[i]! - mean) ** 2);
  }
  return { value: mixtureQuantile(mixture, 0.5), deviation: Math.sqrt(variance) };
}
