import { cdfGivenBell, normalCdf } from '../stats/normal';
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
  const known = PROJECTIONS.get(growth);
  const made = known ?? mixtureOf(growth, growth.isFormExpected ? EQUAL_VOTES : PROJECTION_VOTES);
  if (known === undefined) PROJECTIONS.set(growth, made);
  // Whoever projects has room of its own for what it evaluates.
  const count = made.components.length;
  return { ...made, means: new Float64Array(count), deviations: new Float64Array(count) };
}

/** Mixtures of growths that were projected: band, crossings and outlook ask for the same one. */
const PROJECTIONS = new WeakMap<Growth, Mixture>();

const SQRT_TWO_PI = Math.sqrt(2 * Math.PI);
/** An amplitude is clearly positive from this many standard deviations on. */
const CLEARLY_POSITIVE = 4;
/** Otherwise the positive part of its distribution is cut into this many slices. */
const SLICES = 32;
/** Curves and slices of less weight than this are left out. */
const LEAST_WEIGHT = 1e-4;

/** Beyond this many standard deviations of every component lies no tenth of the distribution. */
const BRACKET_DEVIATIONS = 6;
/** A step this small, as a share of the bracket, is the last one of a quantile: what is left goes with its square. */
const LAST_STEP = 1e-7;
/** Halving the bracket ends here, as a share of it: where the distribution jumps. */
const LEAST_BRACKET = 1e-9;
const QUANTILE_STEPS = 200;

/** Prior weight of each model. */
export type Votes = Record<GrowthModelName, number>;

/** One curve of one model (or a slice of it): r0 and amplitude are normal with the given variances. */
export type Component = GrowthCurve & { name: GrowthModelName };

/** Neighbouring components that are slices of one curve: they share its form. */
type Slices = Pick<Component, 'name' | 'shape'> & {
  from: number;
  to: number;
  /** Form at the last figure [-, as `growthForm`]. */
  lastForm: number;
};

/** All curves of all models with weights that add to 1, and room for their values at one age. */
export type Mixture = {
  components: Component[];
  /** Weight of each component [-]. */
  weights: Float64Array;
  slices: Slices[];
  lastAgeDays: number;
  /** Mean and standard deviation of each component at the age last evaluated [m²·K/W]. */
  means: Float64Array;
  deviations: Float64Array;
};

/** What a quantile needs: weighted normal distributions. */
export type NormalMixture = Pick<Mixture, 'weights' | 'means' | 'deviations'>;

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
    weights: Float64Array.from(components, ({ weight }) => weight),
    slices: slicesOf(components, growth.lastAgeDays),
    lastAgeDays: growth.lastAgeDays,
    means: new Float64Array(components.length),
    deviations: new Float64Array(components.length),
  };
}

function slicesOf(components: readonly Component[], lastAgeDays: number): Slices[] {
  const slices: Slices[] = [];
  components.forEach(({ name, shape }, i) => {
    const last = slices.at(-1);
    if (last?.name === name && last.shape === shape) last.to = i + 1;
    else slices.push({ name, shape, from: i, to: i + 1, lastForm: growthForm(name, shape, lastAgeDays) });
  });
  return slices;
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
  const r0Variance = Math.max(0, curve.r0Variance - slope * curve.covariance);
  const slices = Array.from({ length: SLICES }, (_, i): Component => {
    const amplitude = low + (i + 0.5) * width;
    const z = (amplitude - curve.amplitude) / deviation;
    return {
      name,
      shape: curve.shape,
      weight: Math.exp((centre - z * z) / 2),
      amplitude,
      r0: curve.r0 + slope * (amplitude - curve.amplitude),
      r0Variance,
      amplitudeVariance: (width * width) / 12,
      covariance: 0,
    };
  });
  const sum = slices.reduce((total, slice) => total + slice.weight, 0);
  for (const slice of slices) slice.weight = (weight * slice.weight) / sum;
  return slices;
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
  const { components, slices, lastAgeDays, means, deviations } = mixture;
  for (const { name, shape, from, to, lastForm } of slices) {
    const form = growthForm(name, shape, ageDays);
    const ahead = ageDays > lastAgeDays ? form - lastForm : 0;
    for (let i = from; i < to; i++) {
      const { r0, amplitude, r0Variance, amplitudeVariance, covariance } = components[i]!;
      const future = FUTURE_GROWTH_DEVIATION * amplitude * ahead;
      const variance = r0Variance + form * (2 * covariance + form * amplitudeVariance) + future * future;
      means[i] = r0 + amplitude * form;
      deviations[i] = Math.sqrt(Math.max(0, variance));
    }
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
export function shareAbove({ weights, means, deviations }: NormalMixture, level: number): number {
  let share = 0;
  for (let i = 0; i < weights.length; i++) {
    const z = (means[i]! - level) / Math.max(deviations[i]!, Number.MIN_VALUE);
    share += weights[i]! * normalCdf(z);
  }
  return share;
}

/**
 * A quantile of the mixture, by Newton's method within a bracket that holds it.
 *
 * @param mixture components with their means and deviations [m²·K/W]
 * @param probability share below [-], 0 < probability < 1
 * @param near where it is looked for first [m²·K/W], such as the same quantile a little earlier; left out: the mean
 * @returns [m²·K/W]; some 1e-10 of the width of the distribution off at most
 * @range any weights that add to 1
 * @source Press et al., Numerical Recipes, 3rd ed. 2007, sect. 9.4 (safe Newton)
 * @check tests/core/growth/mixture.test.ts
 */
export function mixtureQuantile(mixture: NormalMixture, probability: number, near?: number): number {
  let [low, high] = bracketOf(mixture);
  if (!(high > low)) return low;
  const width = high - low;
  let level = near !== undefined && near > low && near < high ? near : meanOf(mixture);
  for (let step = 0; step < QUANTILE_STEPS && high - low > LEAST_BRACKET * width; step++) {
    const { share, density } = belowAt(mixture, level);
    const excess = share - probability;
    if (excess === 0) return level;
    if (excess > 0) high = level;
    else low = level;
    const move = -excess / density;
    const next = level + move;
    if (Math.abs(move) <= LAST_STEP * width) return next;
    level = next > low && next < high ? next : (low + high) / 2;
  }
  return level;
}

function bracketOf({ means, deviations }: NormalMixture): [number, number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < means.length; i++) {
    const reach = BRACKET_DEVIATIONS * deviations[i]!;
    if (means[i]! - reach < low) low = means[i]! - reach;
    if (means[i]! + reach > high) high = means[i]! + reach;
  }
  return [low, high];
}

function meanOf({ weights, means }: NormalMixture): number {
  let mean = 0;
  for (let i = 0; i < weights.length; i++) mean += weights[i]! * means[i]!;
  return mean;
}

/** Share of the distribution at or below a level [-], and its density there [1/(m²·K/W)]. */
function belowAt({ weights, means, deviations }: NormalMixture, level: number) {
  let share = 0;
  let density = 0;
  for (let i = 0; i < weights.length; i++) {
    const deviation = Math.max(deviations[i]!, Number.MIN_VALUE);
    const z = (level - means[i]!) / deviation;
    const bell = Math.exp((-z * z) / 2);
    share += weights[i]! * cdfGivenBell(z, bell);
    density += (weights[i]! * bell) / deviation;
  }
  return { share, density: density / SQRT_TWO_PI };
}
