import { findRoot } from '../fit/brent';
import { remembered } from '../fit/remembered';
import type { Crossing, Growth } from './growth';
import { evaluateMixture, projectionOf } from './mixture';
import { mixtureQuantile, shareAbove } from './normal-mixture';
import { smoothFouling } from './smooth-fouling';

/** A crossing age is found to this much [days]: a tenth of a second. */
const AGE_TOLERANCE = 1e-6;

/**
 * First crossing of a limit by the smooth fouling, over parameter uncertainty, model weights and model form.
 * Curves do not fall, so that the crossing lies before age t just where the smooth fouling at t is above the limit:
 * P(crossing ≤ t) = P(Rf(t) ≥ limit), which is summed exactly; nothing is drawn, the same input gives the same bytes.
 * Quantiles lie in the past where the limit was already reached (0: from the start).
 *
 * @param projection growth; limit [m²·K/W]; ageToday [days]; horizonDays [days] after today, ≥ 0
 * @returns P10, P50, P90 of the crossing age [days] (null: not before the horizon's end) and the probability of a
 *   crossing before it
 * @range any; all null and probability 0 without models
 * @source Meeker & Escobar, Statistical Methods for Reliability Data, 1998, sect. 13.5 (degradation to a threshold)
 * @check tests/properties/growth.test.ts
 */
export function projectCrossing(projection: {
  growth: Growth;
  limit: number;
  ageToday: number;
  horizonDays: number;
}): Crossing {
  const { growth, limit, ageToday, horizonDays } = projection;
  if (growth.models.length === 0) return { p10: null, p50: null, p90: null, withinHorizon: 0 };
  const reached = reachedAt(growth, limit);
  const end = ageToday + horizonDays;
  const withinHorizon = reached(end);
  const fromStart = reached(0);
  const age = (probability: number) => {
    if (withinHorizon < probability) return null;
    if (fromStart >= probability) return 0;
    return findRoot((at) => reached(at) - probability, 0, end, { tolerance: AGE_TOLERANCE });
  };
  return { p10: age(0.1), p50: age(0.5), p90: age(0.9), withinHorizon };
}

/** Probability that a limit is reached by an age [days]. */
function reachedAt(growth: Growth, limit: number): (age: number) => number {
  const mixture = projectionOf(growth);
  const { widening } = growth;
  let middle: number | undefined;
  return remembered((age) => {
    evaluateMixture(mixture, age);
    // Distances from the median are multiplied by the widening; without one it is not needed.
    if (widening !== 1) middle = mixtureQuantile(mixture, 0.5, middle);
    return shareAbove(mixture, middle === undefined ? limit : middle + (limit - middle) / widening);
  });
}

/**
 * Age at which the averaged smooth fouling first reached a limit, within the record.
 *
 * @param growth fitted growth
 * @param limit [m²·K/W]
 * @returns age [days], 0 where it was reached from the start; null where it was not reached by the last figure
 * @range any
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, eq. 4.1
 * @check tests/core/growth/project-crossing.test.ts
 */
export function crossedAge(growth: Growth, limit: number): number | null {
  const excess = (age: number) => smoothFouling(growth, age) - limit;
  if (!(excess(growth.lastAgeDays) >= 0)) return null;
  if (excess(0) >= 0) return 0;
  return findRoot(excess, 0, growth.lastAgeDays, { tolerance: AGE_TOLERANCE });
}
