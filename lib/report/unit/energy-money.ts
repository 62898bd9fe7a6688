import type { Unit } from '@/lib/contract/fleet-file';
import { toSi } from '@/lib/contract/ucum';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { formatMoney, formatNumber } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';

/** What heat costs that has to be bought instead [currency of the site]; null without a price. */
export function moneyFor(heat: number | null, { energy }: Unit): number | null {
  const price = energy?.price;
  if (heat === null || price === undefined) return null;
  const joules = toSi(1, price.per, 'energy');
  return joules === null ? null : (purchasedEnergy(heat, energy?.efficiency ?? 1) / joules) * price.amount;
}

/** "at 0.08 € per kWh bought, 1.18 kWh for each kWh of heat"; null without a price. */
export function priceInWords({ energy }: Unit, currency: string): string | null {
  const price = energy?.price;
  if (price === undefined) return null;
  const unit = ucumInWords(price.per);
  const bought = formatNumber(purchasedEnergy(1, energy?.efficiency ?? 1), 2);
  return `at ${formatMoney(price.amount, currency)} per ${unit} bought, ${bought} ${unit} for each ${unit} of heat`;
}
