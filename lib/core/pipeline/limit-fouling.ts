import type { Exchanger, Limit } from '../exchange/exchanger';
import { conductanceFromDuty } from '../exchange/rating';
import { foulingAtCleanliness } from '../fouling/conductance-figures';
import type { RecentConditions } from './recent-conditions';

type OutletLimit = Extract<Limit, { kind: 'outlet-temperature' }>;

/**
 * Fouling resistance at which a limit is reached under recent conditions.
 *
 * @param exchanger the unit
 * @param limit     one of its limits
 * @param recent    medians of the last figures
 * @returns [m²·K/W], 0 or less where even the clean unit is beyond the limit under these conditions; null where no fouling
 *   leads to it, and for a pressure drop, which has a growth of its own
 * @range  any
 * @source METHODS §9; HEI Standards for Steam Surface Condensers (cleanliness); inverse ε-NTU at fixed capacity rates
 * @check  tests/core/pipeline/limit-fouling.test.ts
 */
export function limitFouling(exchanger: Exchanger, limit: Limit, recent: RecentConditions): number | null {
  switch (limit.kind) {
    case 'fouling-resistance':
      return limit.value;
    case 'cleanliness':
      return finiteOrNull(foulingAtCleanliness(limit.below, recent.cleanU));
    case 'outlet-temperature':
      return foulingAtOutlet(exchanger, limit, recent);
    case 'pressure-drop':
      return null;
  }
}

function foulingAtOutlet(exchanger: Exchanger, limit: OutletLimit, recent: RecentConditions): number | null {
  const duty = dutyAtOutlet(limit, recent);
  if (duty === null || !(duty > 0)) return null;
  const { arrangement, area } = exchanger;
  const { hotIn, coldIn, hotCapacityRate, coldCapacityRate, cleanU } = recent;
  const needed = conductanceFromDuty({ arrangement, hotCapacityRate, coldCapacityRate, hotIn, coldIn, duty });
  // More than any conductance gives: the limit lies beyond the unit however clean, as if U had to be infinite.
  const resistance = Number.isNaN(needed) ? 0 : area / needed;
  return finiteOrNull(resistance - 1 / cleanU);
}

/** Duty at which the outlet stands at its limit; null where fouling moves that outlet away from it, or not at all. */
function dutyAtOutlet({ stream, above, below }: OutletLimit, recent: RecentConditions): number | null {
  const { hotIn, coldIn, hotCapacityRate, coldCapacityRate } = recent;
  // The outlet of a stream that changes phase is at saturation, however dirty the unit.
  if (stream === 'hot' && above !== null && Number.isFinite(hotCapacityRate))
    return hotCapacityRate * (hotIn - above);
  if (stream === 'cold' && below !== null && Number.isFinite(coldCapacityRate))
    return coldCapacityRate * (below - coldIn);
  return null;
}

function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
