import type { Unit } from '@/lib/contract/fleet-file';
import { toSi } from '@/lib/contract/ucum';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';

/** What a joule transferred again is worth by the unit's datasheet [money/J]; null where it states no price. */
export function heatPrice({ energy }: Pick<Unit, 'energy'>): number | null {
  const { price, efficiency = 1 } = energy ?? {};
  const joules = price === undefined ? null : toSi(1, price.per, 'energy');
  if (price === undefined || joules === null) return null;
  return (purchasedEnergy(1, efficiency) / joules) * price.amount;
}
