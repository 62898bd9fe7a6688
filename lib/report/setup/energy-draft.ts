import type { Unit } from '@/lib/contract/fleet-file';
import { type DraftReader, orNothing } from './draft-reader';
import { type Blank, numberText, type QuantityDraft, quantityText } from './quantity-draft';

type Energy = NonNullable<Unit['energy']>;
type Pumping = NonNullable<Unit['pumping']>;

/** Energy as it is bought: a supply of the site, or a price and a factor of its own. */
type BoughtDraft = {
  supply: string;
  price: { amount: string; per: string };
  efficiency: string;
  carbon: { kg: string; per: string };
};

export type EnergyDraft = BoughtDraft & {
  effect: '' | Energy['effect'];
  heldOutlet: '' | NonNullable<Energy['heldOutlet']>;
};

const PUMPING_QUANTITIES = {
  hotClean: 'pressure',
  coldClean: 'pressure',
  hotHead: 'pressure',
  coldHead: 'pressure',
  hotMaximumFlow: 'flow',
  coldMaximumFlow: 'flow',
} as const;
type PumpingQuantity = keyof typeof PUMPING_QUANTITIES;
const PUMPING_NAMES = Object.keys(PUMPING_QUANTITIES) as PumpingQuantity[];

export type PumpingDraft = BoughtDraft & Record<PumpingQuantity, QuantityDraft>;

export function energyDraft(stated: Energy | undefined): EnergyDraft {
  return {
    ...boughtDraft(stated ?? {}),
    effect: stated?.effect ?? '',
    heldOutlet: stated?.heldOutlet ?? '',
  };
}

export function pumpingDraft(stated: Pumping, blank: Blank): PumpingDraft {
  const quantities = PUMPING_NAMES.map((name) => [
    name,
    quantityText(stated[name], blank(PUMPING_QUANTITIES[name])),
  ]);
  return {
    ...boughtDraft(stated),
    ...(Object.fromEntries(quantities) as Record<PumpingQuantity, QuantityDraft>),
  };
}

function boughtDraft({
  supply,
  price,
  efficiency,
  carbon,
}: Pick<Pumping, 'supply' | 'price' | 'efficiency' | 'carbon'>): BoughtDraft {
  return {
    supply: supply ?? '',
    price: { amount: numberText(price?.amount), per: price?.per ?? 'kW.h' },
    efficiency: numberText(efficiency),
    carbon: { kg: numberText(carbon?.kg), per: carbon?.per ?? 'kW.h' },
  };
}

export function energyDocument(read: DraftReader, typed: EnergyDraft) {
  const bought = boughtDocument(read, 'unit.energy', typed);
  const heldOutlet = typed.heldOutlet === '' ? undefined : typed.heldOutlet;
  if (typed.effect !== '') return { effect: typed.effect, ...bought, heldOutlet };
  if (orNothing({ ...bought, heldOutlet }) !== undefined)
    read.fault('unit.energy.effect', 'say what the unit does, so that a loss can be priced');
  return undefined;
}

export function pumpingDocument(read: DraftReader, typed: PumpingDraft) {
  const bought = boughtDocument(read, 'unit.pumping', typed);
  const quantities = PUMPING_NAMES.map((name) => [name, read.positive(`unit.pumping.${name}`, typed[name])]);
  return orNothing({ ...bought, ...(Object.fromEntries(quantities) as Record<PumpingQuantity, unknown>) });
}

function boughtDocument(read: DraftReader, field: string, typed: BoughtDraft) {
  const supply = read.text(`${field}.supply`, typed.supply);
  const amount = read.number(`${field}.price.amount`, typed.price.amount);
  const efficiency = read.number(`${field}.efficiency`, typed.efficiency);
  const kg = read.number(`${field}.carbon.kg`, typed.carbon.kg);
  return {
    supply,
    price: amount === undefined ? undefined : { amount, per: typed.price.per },
    carbon: kg === undefined ? undefined : { kg, per: typed.carbon.per },
    efficiency,
  };
}
