import type { DatedPrice, Supply } from '@/lib/contract/fleet-file';
import { ELECTRICITY, NATURAL_GAS, PRODUCED_HEAT } from './fleet/site-terms';

/** What a kilowatt-hour cost [EUR] and emitted [kg] from the first of a month on, counted back from the month of the end. */
type Change = { monthsBack: number; price?: number; carbon?: number };
export type SupplyPlan = { name: string; changes: Change[] };

/** Invented: two years of contracts, and a factor told anew each year. The first change lies before the record begins. */
export const FERROW_POINT_SUPPLIES: SupplyPlan[] = [
  {
    name: NATURAL_GAS,
    changes: [
      { monthsBack: 24, price: 0.054, carbon: 0.202 },
      { monthsBack: 14, price: 0.066 },
      { monthsBack: 8, price: 0.061 },
      { monthsBack: 2, price: 0.064 },
    ],
  },
  {
    name: ELECTRICITY,
    changes: [
      { monthsBack: 24, price: 0.151, carbon: 0.152 },
      { monthsBack: 13, carbon: 0.131 },
      { monthsBack: 11, price: 0.138 },
      { monthsBack: 4, price: 0.147 },
    ],
  },
];

export const KALDHOLM_SUPPLIES: SupplyPlan[] = [
  {
    name: PRODUCED_HEAT,
    changes: [
      { monthsBack: 24, price: 0.044, carbon: 0.118 },
      { monthsBack: 13, price: 0.051, carbon: 0.109 },
      { monthsBack: 5, price: 0.048 },
    ],
  },
  {
    name: ELECTRICITY,
    changes: [
      { monthsBack: 24, price: 0.098, carbon: 0.066 },
      { monthsBack: 12, price: 0.119, carbon: 0.058 },
      { monthsBack: 6, price: 0.107 },
    ],
  },
  {
    name: NATURAL_GAS,
    changes: [
      { monthsBack: 24, price: 0.059, carbon: 0.202 },
      { monthsBack: 13, price: 0.069 },
      { monthsBack: 5, price: 0.063 },
    ],
  },
];

const PER = 'kW.h';

/** The supplies of a site as its fleet file states them; `end` [ms] is the end of the record. */
export function suppliesAt(plans: SupplyPlan[], end: number): Supply[] {
  return plans.map(({ name, changes }) => ({ name, dated: changes.map((change) => statedAt(change, end)) }));
}

function statedAt({ monthsBack, price, carbon }: Change, end: number): DatedPrice {
  const now = new Date(end);
  const from = new Date(Date.UTC(now.getUTCFullYear(), now.getUTCMonth() - monthsBack, 1));
  return {
    from: from.toISOString().slice(0, 'YYYY-MM-DD'.length),
    ...(price !== undefined && { price: { amount: price, per: PER } }),
    ...(carbon !== undefined && { carbon: { kg: carbon, per: PER } }),
  };
}
