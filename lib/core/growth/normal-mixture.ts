import { cdfGivenBell, normalCdf } from '../stats/normal';

const SQRT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Beyond this many standard deviations on either side there is less of a normal distribution than rounding of 1. */
const NOTHING_BEYOND = 8.3;
/** Beyond this many standard deviations of every component lies no tenth of the distribution. */
const BRACKET_DEVIATIONS = 6;
/** A step this small, as a share of the bracket, is the last one of a quantile: what is left goes with its square. */
const LAST_STEP = 1e-9;
/** Halving the bracket ends here, as a share of it: where the distribution jumps. */
const LEAST_BRACKET = 1e-9;
const QUANTILE_STEPS = 200;

/** Weighted normal distributions: columns of equal length, the weights adding to 1 [-]. */
export type NormalMixture = Record<'weights' | 'means' | 'deviations', Float64Array>;

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
    const excess = means[i]! - level;
    const reach = NOTHING_BEYOND * deviations[i]!;
    if (excess < -reach) continue;
    share += excess > reach ? weights[i]! : weights[i]! * normalCdf(excess / notNothing(deviations[i]!));
  }
  return share;
}

/** What is asked for: the share below, 0 to 1 [-], and where it is looked for first [m²·K/W]. */
type Wanted = { probability: number; near: number | undefined };

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
  return mixtureQuantiles(mixture, [{ probability, near }])[0]!;
}

/**
 * Several quantiles of the mixture, each as `mixtureQuantile` gives it.
 *
 * @param mixture components with their means and deviations [m²·K/W]
 * @param wanted their shares below [-], and where they are looked for first [m²·K/W]
 * @returns one for each [m²·K/W]
 * @range any weights that add to 1
 * @source see `mixtureQuantile`
 * @check tests/core/growth/project-band.test.ts
 */
export function mixtureQuantiles(mixture: NormalMixture, wanted: readonly Wanted[]): number[] {
  const bracket = bracketOf(mixture);
  return wanted.map((one) => quantileWithin(bracket, mixture, one));
}

function quantileWithin(
  bracket: readonly [number, number],
  mixture: NormalMixture,
  { probability, near }: Wanted,
): number {
  let [low, high] = bracket;
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
    const excess = level - means[i]!;
    const reach = NOTHING_BEYOND * deviations[i]!;
    if (excess < -reach) continue;
    if (excess > reach) {
      share += weights[i]!;
      continue;
    }
    const deviation = notNothing(deviations[i]!);
    const z = excess / deviation;
    const bell = Math.exp((-z * z) / 2);
    share += weights[i]! * cdfGivenBell(z, bell);
    density += (weights[i]! * bell) / deviation;
  }
  return { share, density: density / SQRT_TWO_PI };
}

/** A deviation to divide by. */
function notNothing(deviation: number): number {
  return Math.max(deviation, Number.MIN_VALUE);
}
