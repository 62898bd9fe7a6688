import type { Exchanger, Limit } from '../exchange/exchanger';
import { conductanceFromDuty } from '../exchange/rating';
import type { FluidSpec } from '../fluids/fluid';
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
  const duty = dutyAtOutlet(limit, recent, isSteam(exchanger.hot));
  if (duty === null || !(duty > 0)) return null;
  const { arrangement, area } = exchanger;
  const { hotIn, coldIn, hotCapacityRate, coldCapacityRate, cleanU } = recent;
  const needed = conductanceFromDuty({ arrangement, hotCapacityRate, coldCapacityRate, hotIn, coldIn, duty });
  // More than any conductance gives: the limit lies beyond the unit however clean, as if U had to be infinite.
  const resistance = Number.isNaN(needed) ? 0 : area / needed;
  return finiteOrNull(resistance - 1 / cleanU);
}

/** Duty at which the outlet stands at its limit; null where fouling moves that outlet away from it. */
function dutyAtOutlet(
  { stream, above, below }: OutletLimit,
  recent: RecentConditions,
  isCondensing: boolean,
): number | null {
  if (stream === 'hot' && above !== null && !isCondensing)
    return recent.hotCapacityRate * (recent.hotIn - above);
  if (stream === 'cold' && below !== null) return recent.coldCapacityRate * (below - recent.coldIn);
  return null;
}

function isSteam({ kind }: FluidSpec): boolean {
  return kind === 'steam';
}

function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
