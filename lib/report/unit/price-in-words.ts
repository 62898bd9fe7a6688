import type { Unit } from '@/lib/contract/fleet-file';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';
import { formatMoney, formatNumber } from '@/lib/report/format/figure';
import { ucumInWords } from '@/lib/report/format/ucum-words';

/** "at 0.08 € per kWh bought, 1.18 kWh for each kWh of heat"; null without a price. */
export function priceInWords({ energy }: Unit, currency: string): string | null {
  const price = energy?.price;
  if (price === undefined) return null;
  const unit = ucumInWords(price.per);
  const bought = formatNumber(purchasedEnergy(1, energy?.efficiency ?? 1), 2);
  return `at ${formatMoney(price.amount, currency)} per ${unit} bought, ${bought} ${unit} for each ${unit} of heat`;
}
