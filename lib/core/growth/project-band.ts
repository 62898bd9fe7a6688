import type { Band, Growth } from './growth';
import { evaluateMixture, mixtureQuantile, projectionOf } from './mixture';

/**
 * Quantiles of the smooth fouling at given ages, from the same distribution as `projectCrossing`: the P90 line meets
 * the limit at the crossing's P10, and the other way round.
 *
 * @param projection growth; ages [days], ≥ 0, any order
 * @returns P10, P50, P90 at each age [m²·K/W]; NaN without models
 * @range any
 * @source Meeker & Escobar, Statistical Methods for Reliability Data, 1998, sect. 13.5
 * @check tests/core/growth/project-band.test.ts
 */
export function projectBand({ growth, ages }: { growth: Growth; ages: ArrayLike<number> }): Band {
  const ageDays = Float64Array.from(ages);
  const lines = [0, 1, 2].map(() => new Float64Array(ageDays.length).fill(Number.NaN));
  const band: Band = { ageDays, p10: lines[0]!, p50: lines[1]!, p90: lines[2]! };
  if (growth.models.length === 0) return band;
  const mixture = projectionOf(growth);
  // From one age to the next a quantile moves little: it is looked for where it was.
  const near: Record<'p10' | 'p50' | 'p90', number | undefined> = {
    p10: undefined,
    p50: undefined,
    p90: undefined,
  };
  const quantile = (name: keyof typeof near, probability: number) => {
    near[name] = mixtureQuantile(mixture, probability, near[name]);
    return near[name];
  };
  for (let i = 0; i < ageDays.length; i++) {
    evaluateMixture(mixture, ageDays[i]!);
    const middle = quantile('p50', 0.5);
    const widened = (value: number) => middle + growth.widening * (value - middle);
    band.p10[i] = widened(quantile('p10', 0.1));
    band.p50[i] = middle;
    band.p90[i] = widened(quantile('p90', 0.9));
  }
  return band;
}
