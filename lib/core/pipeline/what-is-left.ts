import type { CleaningResult } from '../cycles/cleaning-result';
import type { Growth } from '../growth/growth';
import { smoothFouling } from '../growth/smooth-fouling';
import { median } from '../stats/quantile';
import type { WhatIsLeft } from './outlook';
import type { Cycle } from './unit-trend';

/** Cleanings that say what the next one leaves: older ones say little of today's deposits [-] (own choice). */
const LAST_CLEANINGS = 6;

/**
 * The fouling that the next cleaning is expected to leave: the median of what the unit's recorded cleanings left; without any,
 * of where its cycles began; else where the running cycle began.
 *
 * @param growth of the running cycle
 * @param known  what the recorded cleanings did, and the cycles as described
 * @returns [m²·K/W] with the standard deviation for one more cleaning, and how many say so
 * @range  at least one model
 * @source METHODS §8; spread of a new draw s·√(1 + 1/n): Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, sect. 2.8
 * @check  tests/core/pipeline/outlook.test.ts
 */
export function whatIsLeft(
  growth: Growth,
  { cleaningResults, cycles }: { cleaningResults: readonly CleaningResult[]; cycles: readonly Cycle[] },
): WhatIsLeft {
  const unsure = growth.foulingResistanceUncertainty;
  const cleanings = cleaningResults.flatMap(({ effect }) => effect?.after ?? []);
  if (cleanings.length > 0) return { ...typical(cleanings, unsure), from: 'own-cleanings' };
  const starts = cycles.flatMap(({ began, foulingAtStart }) =>
    began === 'record' ? [] : (foulingAtStart ?? []),
  );
  if (starts.length > 0) return { ...typical(starts, unsure), from: 'cycle-starts' };
  return { value: smoothFouling(growth, 0), uncertainty: unsure, from: 'nothing', cleanings: 0 };
}

/** Never surer of what one more cleaning leaves than of what the fouling is now. */
function typical(left: readonly number[], unsure: number): Omit<WhatIsLeft, 'from'> {
  const last = left.slice(-LAST_CLEANINGS);
  const value = median(last);
  const count = last.length;
  const squares = last.reduce((sum, each) => sum + (each - value) ** 2, 0);
  const spread = count > 1 ? Math.sqrt((squares / (count - 1)) * (1 + 1 / count)) : 0;
  return { value, uncertainty: Math.max(spread, unsure), cleanings: count };
}
