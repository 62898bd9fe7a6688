import { findRoot } from '../fit/brent';
import { normalCdf } from '../stats/normal';
import { growthForm } from './forms';
import type { Growth, GrowthCurve, GrowthModelName } from './growth';

/**
 * Model-form uncertainty: the growth still to come may differ from the fitted curve's by this share (standard
 * deviation), one factor for the whole future. Set on simulated fleets so that P10–P90 holds 80 % (tests/properties/growth.test.ts).
 */
export const FUTURE_GROWTH_DEVIATION = 0.01;
/**
 * Votes of the models in a projection, on top of their AICc weights. A young asymptotic curve looks like a power of
 * time, which reaches the limit sooner; with equal votes P10–P90 held only 69 % of asymptotic cycles, with these
 * 80 ± 5 % of every kind (tests/properties/growth.test.ts, 2000 cycles).
 */
export const PROJECTION_VOTES: Votes = {
  none: 1,
  linear: 1,
  'delayed-linear': 1,
  'falling-rate': 1,
  asymptotic: 2,
};
/** Votes for the state at the last figure, which all models describe alike, and where other cycles have had their say. */
export const EQUAL_VOTES: Votes = { ...PROJECTION_VOTES, asymptotic: 1 };

/**
 * The distribution of the smooth fouling to come: a mixture by the votes that a projection gives its models.
 *
 * @param growth fitted growth with at least one model
 * @returns mixture
 * @range at least one model
 * @source see `PROJECTION_VOTES`
 * @check tests/properties/growth.test.ts
 */
export function projectionOf(growth: Growth): Mixture {
  return mixtureOf(growth, growth.isFormExpected ? EQUAL_VOTES : PROJECTION_VOTES);
}

/** An amplitude is clearly positive from this many standard deviations on. */
const CLEARLY_POSITIVE = 4;
/** Otherwise the positive part of its distribution is cut into this many slices. */
const SLICES = 32;
/** Curves and slices of less weight than this are left out. */
const LEAST_WEIGHT = 1e-4;

/** Beyond this many standard deviations of every component lies no tenth of the distribution. */
const BRACKET_DEVIATIONS = 6;
/** A quantile is found to this share of the bracket. */
const QUANTILE_TOLERANCE = 1e-9;

/** Prior weight of each model. */
export type Votes = Record<GrowthModelName, number>;

/** One curve of one model (or a slice of it): r0 and amplitude are normal with the given variances. */
export type Component = GrowthCurve & { name: GrowthModelName };

/** All curves of all models with weights that add to 1, and room for their values at one age. */
export type Mixture = {
  components: Component[];
  lastAgeDays: number;
  /** Mean and standard deviation of each component at the age last evaluated [m²·K/W]. */
  means: Float64Array;
  deviations: Float64Array;
};

/** What a quantile needs: weighted normal distributions. */
export type NormalMixture = Pick<Mixture, 'components' | 'means' | 'deviations'>;

/**
 * The distribution of the smooth fouling as a mixture of normal curves: every curve of every model by its weight.
 *
 * @param growth models with their curves, and the age of the last figure [days]
 * @param votes prior weight of each model [-]
 * @returns mixture
 * @range at least one model
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, sect. 4.3
 * @check tests/core/growth/mixture.test.ts
 */
export function mixtureOf(growth: Pick<Growth, 'models' | 'lastAgeDays'>, votes: Votes): Mixture {
  const components = growth.models
    .flatMap(({ name, curves, weight }) =>
      curves.flatMap((curve) => componentsOf(name, curve, votes[name] * weight * curve.weight)),
    )
    .filter((component) => component.weight > LEAST_WEIGHT / SLICES);
  const sum = components.reduce((total, component) => total + component.weight, 0);
  for (const component of components) component.weight /= sum;
  return {
    components,
    lastAgeDays: growth.lastAgeDays,
    means: new Float64Array(components.length),
    deviations: new Float64Array(components.length),
  };
}

/** Rates are not negative: an amplitude that may be below 0 is cut into slices over its positive part. */
function componentsOf(name: GrowthModelName, curve: GrowthCurve, weight: number): Component[] {
  if (weight < LEAST_WEIGHT) return [];
  const deviation = Math.sqrt(curve.amplitudeVariance);
  if (name === 'none' || !(curve.amplitude < CLEARLY_POSITIVE * deviation))
    return [{ ...curve, name, weight }];
  const low = Math.max(0, curve.amplitude - CLEARLY_POSITIVE * deviation);
  const width = (Math.max(curve.amplitude, 0) + CLEARLY_POSITIVE * deviation - low) / SLICES;
  const slope = curve.covariance / curve.amplitudeVariance;
  // Densities relative to that at 0 or at the centre, so that none of them underflows.
  const centre = Math.min(0, curve.amplitude / deviation) ** 2;
  const slices = Array.from({ length: SLICES }, (_, i) => {
    const amplitude = low + (i + 0.5) * width;
    const z = (amplitude - curve.amplitude) / deviation;
    return {
      ...curve,
      name,
      weight: Math.exp((centre - z * z) / 2),
      amplitude,
      r0: curve.r0 + slope * (amplitude - curve.amplitude),
      r0Variance: Math.max(0, curve.r0Variance - slope * curve.covariance),
      amplitudeVariance: (width * width) / 12,
      covariance: 0,
    };
  });
  const sum = slices.reduce((total, slice) => total + slice.weight, 0);
  return slices.map((slice) => ({ ...slice, weight: (weight * slice.weight) / sum }));
}

/**
 * Evaluates every component at an age; beyond the last figure the model-form uncertainty of the growth since is added.
 *
 * @param mixture changed: its means and deviations [m²·K/W]
 * @param ageDays [days], ≥ 0
 * @returns mixture
 * @range ageDays ≥ 0
 * @source JCGM 100:2008, eq. 13 (variance of a linear function)
 * @check tests/core/growth/mixture.test.ts
 */
export function evaluateMixture(mixture: Mixture, ageDays: number): Mixture {
  const { components, lastAgeDays, means, deviations } = mixture;
  for (let i = 0; i < components.length; i++) {
    const { name, shape, r0, amplitude, r0Variance, amplitudeVariance, covariance } = components[i]!;
    const form = growthForm(name, shape, ageDays);
    let variance = r0Variance + form * (2 * covariance + form * amplitudeVariance);
    if (ageDays > lastAgeDays) {
      variance += (FUTURE_GROWTH_DEVIATION * amplitude * (form - growthForm(name, shape, lastAgeDays))) ** 2;
    }
    means[i] = r0 + amplitude * form;
    deviations[i] = Math.sqrt(Math.max(0, variance));
  }
  return mixture;
}

/**
 * Probability that the smooth fouling at the age last evaluated is at or above a level.
 *
 * @param mixture evaluated mixture
 * @param level [m²·K/W]
 * @returns probability [-], 0 to 1
 * @range any
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, sect. 4.3
 * @check tests/core/growth/mixture.test.ts
 */
export function shareAbove({ components, means, deviations }: NormalMixture, level: number): number {
  let share = 0;
  for (let i = 0; i < components.length; i++) {
    const z = (means[i]! - level) / Math.max(deviations[i]!, Number.MIN_VALUE);
    share += components[i]!.weight * normalCdf(z);
  }
  return share;
}

/**
 * Probability that the smooth fouling is at or above a level when its distances from the median are multiplied by a factor.
 *
 * @param mixture evaluated mixture
 * @param level [m²·K/W]
 * @param widening factor [-], ≥ 1
 * @returns probability [-], 0 to 1; as `shareAbove` for a factor of 1
 * @range any
 * @source scale family about the median
 * @check tests/core/growth/mixture.test.ts
 */
export function widenedShareAbove(mixture: NormalMixture, level: number, widening: number): number {
  if (widening === 1) return shareAbove(mixture, level);
  const middle = mixtureQuantile(mixture, 0.5);
  return shareAbove(mixture, middle + (level - middle) / widening);
}

/**
 * Quantile of the values at the age last evaluated.
 *
 * @param mixture evaluated mixture
 * @param probability share below [-], 0 to 1
 * @returns [unit of the means]
 * @range any
 * @source root of the distribution function in `shareAbove`; Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4
 * @check tests/core/growth/mixture.test.ts
 */
export function mixtureQuantile(mixture: NormalMixture, probability: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < mixture.means.length; i++) {
    low = Math.min(low, mixture.means[i]! - BRACKET_DEVIATIONS * mixture.deviations[i]!);
    high = Math.max(high, mixture.means[i]! + BRACKET_DEVIATIONS * mixture.deviations[i]!);
  }
  if (!(high > low)) return low;
  const excess = (level: number) => 1 - shareAbove(mixture, level) - probability;
  return findRoot(excess, low, high, { tolerance: QUANTILE_TOLERANCE * (high - low) });
}
