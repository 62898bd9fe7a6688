import { interpolate } from '../series/interpolate';
import type { Growth } from './growth';
import { evaluateAlong, evaluateMixture, type Mixture, projectionOf } from './mixture';
import { mixtureQuantile, shareAbove } from './normal-mixture';

/**
 * The median is worked out at every age at first, where it may bend, and then at ages this far apart [days], on straight lines
 * between: it costs the most, and only a widened projection needs it.
 */
const MEDIAN_FINE_DAYS = 56;
const MEDIAN_STEP_DAYS = 28;

/** A projected distribution at some ages. */
export type ProjectionAlong = {
  /**
   * Values of the fouling [m²·K/W] at an age, by its index: a mean over them, by `weights` that add to 1, is expected. Overwritten
   * by the next age that is asked for.
   */
  foulingAt: (index: number) => Float64Array;
  weights: Float64Array;
  /** Probability that a level [m²·K/W] was reached by an age, by its index [-]; as `projectCrossing` gives it. */
  reachedAt: (index: number, level: number) => number;
};

/**
 * The projected distribution at some ages: for expected values of what hangs on the fouling, and for the probability that levels
 * are reached.
 *
 * Each normal curve of the mixture is stood for by two values one standard deviation from its mean, which gives the mean of
 * any cubic exactly. P10, P50 and P90 with weights 30-40-30 leave out the tails of a young cycle's projection, and mean and
 * variance of the whole are misled by them.
 *
 * @param growth fitted growth with at least one model
 * @param ages   [days], ≥ 0, ascending
 * @returns values of the fouling at an age, and how probable it is that levels are reached
 * @range  at least one model
 * @source Gauss–Hermite quadrature of two points: Abramowitz & Stegun, table 25.10
 * @check  tests/core/growth/project-expectation.test.ts
 */
export function projectionAlong(growth: Growth, ages: readonly number[]): ProjectionAlong {
  const mixture = projectionOf(growth);
  const { weights, means, deviations } = mixture;
  const { widening } = growth;
  // Distances from the median are multiplied by the widening; without one it is not needed.
  const middles = widening === 1 ? null : medians(mixture, ages);
  const evaluate = evaluateAlong(mixture, new Float64Array(ages));
  let evaluated = -1;
  /** Evaluates the mixture at an age, once for all that is asked of it there. @returns its median, where it is needed */
  const moveTo = (index: number): number => {
    if (index !== evaluated) evaluate(index);
    evaluated = index;
    return middles?.[index] ?? 0;
  };
  // Two values for each normal curve, one standard deviation to either side of its mean.
  const fouling = new Float64Array(2 * weights.length);
  const halves = new Float64Array(2 * weights.length);
  for (let k = 0; k < halves.length; k++) halves[k] = weights[k >> 1]! / 2;
  return {
    weights: halves,
    foulingAt: (index) => {
      const middle = moveTo(index);
      for (let c = 0; c < weights.length; c++) {
        const mean = middle + widening * (means[c]! - middle);
        const deviation = widening * deviations[c]!;
        fouling[2 * c] = mean - deviation;
        fouling[2 * c + 1] = mean + deviation;
      }
      return fouling;
    },
    reachedAt: (index, level) => {
      const middle = moveTo(index);
      return shareAbove(mixture, middle + (level - middle) / widening);
    },
  };
}

function medians(mixture: Mixture, ages: readonly number[]): number[] {
  const workedOut: number[] = [];
  for (const age of ages) {
    const isFine = age <= ages[0]! + MEDIAN_FINE_DAYS || age === ages.at(-1);
    if (isFine || age >= workedOut.at(-1)! + MEDIAN_STEP_DAYS) workedOut.push(age);
  }
  let near: number | undefined;
  const middles = workedOut.map((age) => {
    near = mixtureQuantile(evaluateMixture(mixture, age), 0.5, near);
    return near;
  });
  return ages.map((age) => interpolate(workedOut, middles, age));
}
