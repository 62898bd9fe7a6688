import type { Unit } from '@/lib/contract/fleet-file';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { formatNumber } from '@/lib/report/format/figure';
import { energyUnitInWords, priceText } from '@/lib/report/prices/price-words';
import type { SupplyRecord } from '@/lib/report/records';

/**
 * "at 0.08 € per kWh bought, 1.18 kWh for each kWh of heat", or that the dated prices of its supply are taken; null without a
 * price.
 *
 * @param supplies those of the unit's site that are in force
 */
export function priceInWords(
  { energy }: Pick<Unit, 'energy'>,
  supplies: readonly SupplyRecord[],
  currency: string,
): string | null {
  const bought = formatNumber(purchasedEnergy(1, energy?.efficiency ?? 1), 2);
  const perHeat = (unit: string) => `${bought} ${unit} for each ${unit} of heat`;
  if (supplies.some(({ supply, price }) => supply === energy?.supply && price !== null))
    return `at the price of ${energy!.supply} on each day, ${perHeat('kWh')}`;
  const price = energy?.price;
  if (price === undefined) return null;
  return `at ${priceText(price, currency)} bought, ${perHeat(energyUnitInWords(price.per))}`;
}
