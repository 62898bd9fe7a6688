import type { Growth } from './growth';

/**
 * The same growth with another systematic uncertainty: only the level of its curves is known better or worse, not their
 * slope nor the scatter about them.
 *
 * @param growth fitted growth
 * @param before systematic standard uncertainty it was fitted with [m²·K/W]
 * @param after  the other one [m²·K/W]
 * @returns growth whose curves have the variance of r0 changed by after² − before²
 * @range  any ≥ 0; the summary at the last figure is left as it was
 * @source JCGM 100:2008 (GUM) 5.1 (variances of independent parts add)
 * @check  tests/core/growth/change-systematic.test.ts
 */
export function changeSystematic(growth: Growth, before: number, after: number): Growth {
  const change = after * after - before * before;
  return {
    ...growth,
    models: growth.models.map((model) => ({
      ...model,
      curves: model.curves.map((curve) => ({
        ...curve,
        r0Variance: Math.max(0, curve.r0Variance + change),
      })),
    })),
  };
}
