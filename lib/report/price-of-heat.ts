import type { Unit } from '@/lib/contract/fleet-file';
import { toSi } from '@/lib/contract/ucum';
import { purchasedEnergy } from '@/lib/core/cost/purchased-energy';

type Priced = Pick<Unit, 'energy'>;

/** What heat [J] costs that has to be bought instead [currency of the site]; null without heat, or without a price. */
export function moneyFor(heat: number | null, { energy }: Priced): number | null {
  const price = energy?.price;
  return price === undefined ? null : perUnitBought(heat, energy, price.amount, price.per);
}

/** What is emitted for heat [J] that has to be bought instead [kg of CO2]; null without heat, or without a factor. */
export function carbonFor(heat: number | null, { energy }: Priced): number | null {
  const carbon = energy?.carbon;
  return carbon === undefined ? null : perUnitBought(heat, energy, carbon.kg, carbon.per);
}

function perUnitBought(heat: number | null, energy: Unit['energy'], amount: number, per: string) {
  const joules = toSi(1, per, 'energy');
  if (heat === null || joules === null) return null;
  return (purchasedEnergy(heat, energy?.efficiency ?? 1) / joules) * amount;
}
