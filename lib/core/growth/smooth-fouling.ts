import { growthValue } from './forms';
import type { Growth } from './growth';

/**
 * Model-averaged smooth fouling at an age: the best curve of each model by its weight.
 *
 * @param growth fitted growth
 * @param ageDays [days], ≥ 0
 * @returns [m²·K/W]; NaN without models
 * @range any
 * @source Burnham & Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002, eq. 4.1
 * @check tests/core/growth/smooth-fouling.test.ts
 */
export function smoothFouling(growth: Pick<Growth, 'models'>, ageDays: number): number {
  if (growth.models.length === 0) return Number.NaN;
  return growth.models.reduce((sum, model) => sum + model.weight * growthValue(model, ageDays), 0);
}
