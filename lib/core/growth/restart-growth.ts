import type { Growth, GrowthCurve } from './growth';

/** Neighbouring shapes that one of them stands for [-]: beside what cycles differ by, they hardly do (own choice). */
const CURVES_TOGETHER = 3;

/** Where the growth begins anew [m²·K/W], and how far its rate differs from cycle to cycle [-]; both standard deviations. */
export type Restart = { level: number; levelUncertainty: number; rateSpread: number };

/**
 * The growth of a cycle begun anew at age 0: the same curves from another level. Their amplitudes are those of the next cycle,
 * which differ from this one's as cycles do; level and amplitude have nothing to do with each other.
 *
 * @param growth  of the running cycle
 * @param restart level [m²·K/W] and spread of the rate from cycle to cycle [-]
 * @returns growth whose projection is that of the next cycle; only its curves, age and widening are meant to be used
 * @range  at least one model
 * @source variance of a new draw: Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, sect. 5.4 (exchangeable groups)
 * @check  tests/core/growth/restart-growth.test.ts
 */
export function restartGrowth(growth: Growth, { level, levelUncertainty, rateSpread }: Restart): Growth {
  return {
    ...growth,
    lastAgeDays: 0,
    models: growth.models.map((model) => ({
      ...model,
      curves: thinned(model.curves).map((curve) => ({
        ...curve,
        r0: level,
        r0Variance: levelUncertainty ** 2,
        amplitudeVariance: curve.amplitudeVariance + (rateSpread * curve.amplitude) ** 2,
        covariance: 0,
      })),
    })),
  };
}

/** The heaviest of each three neighbouring curves with the weight of all three: every curve is cut into slices later. */
function thinned(curves: readonly GrowthCurve[]): GrowthCurve[] {
  const groups = Array.from({ length: Math.ceil(curves.length / CURVES_TOGETHER) }, (_, i) =>
    curves.slice(i * CURVES_TOGETHER, (i + 1) * CURVES_TOGETHER),
  );
  return groups.map((group) => {
    const heaviest = group.reduce((most, curve) => (curve.weight > most.weight ? curve : most));
    return { ...heaviest, weight: group.reduce((sum, { weight }) => sum + weight, 0) };
  });
}
