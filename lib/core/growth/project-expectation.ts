import type { Growth } from './growth';
import { evaluateMixture, mixtureQuantile, projectionOf, shareAbove } from './mixture';

/** What is asked of a projection at each of its ages. */
export type ProjectionRequest = {
  /** Ages [days], ≥ 0. */
  ages: readonly number[];
  /** Levels that the smooth fouling may have reached [m²·K/W]. */
  levels: readonly number[];
  /** Told values of the fouling [m²·K/W] at an age of the list, with weights that add to 1: a mean over them is expected. */
  visit: (age: number, fouling: number, weight: number) => void;
};

/**
 * Goes through the projected distribution at some ages: for expected values of what hangs on the fouling, and for the
 * probability that levels are reached.
 *
 * Each normal curve of the mixture is stood for by two values one standard deviation from its mean, which gives the mean of
 * any cubic exactly. P10, P50 and P90 with weights 30-40-30 leave out the tails of a young cycle's projection, and mean and
 * variance of the whole are misled by them.
 *
 * @param growth  fitted growth with at least one model
 * @param request ages [days], levels [m²·K/W] and who is told the values
 * @returns probability that each level was reached by each age [-], one row per level; as `projectCrossing` gives it
 * @range  at least one model
 * @source Gauss–Hermite quadrature of two points: Abramowitz & Stegun, table 25.10
 * @check  tests/core/growth/project-expectation.test.ts
 */
export function overProjection(growth: Growth, { ages, levels, visit }: ProjectionRequest): number[][] {
  const mixture = projectionOf(growth);
  const { components, means, deviations } = mixture;
  const { widening } = growth;
  const reached = levels.map(() => ages.map(() => 0));
  ages.forEach((age, i) => {
    evaluateMixture(mixture, age);
    // Distances from the median are multiplied by the widening; without one it is not needed.
    const middle = widening === 1 ? 0 : mixtureQuantile(mixture, 0.5);
    for (let c = 0; c < components.length; c++) {
      const half = components[c]!.weight / 2;
      const mean = middle + widening * (means[c]! - middle);
      const deviation = widening * deviations[c]!;
      visit(i, mean - deviation, half);
      visit(i, mean + deviation, half);
    }
    levels.forEach((level, l) => {
      reached[l]![i] = shareAbove(mixture, middle + (level - middle) / widening);
    });
  });
  return reached;
}
