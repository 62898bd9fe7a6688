import { type DoneCleaning, netOf } from './done-cleaning';

/** Worth against cost of the cleanings of one currency, of those alone whose both are known. */
export type CurrencyTotal = {
  currency: string;
  /** Cleanings counted, and how many of them have brought back what they cost. */
  cleanings: number;
  paid: number;
  worth: number;
  cost: number;
  net: number;
};

/** Cleanings of a period together, and those that could not be counted. */
export type CleaningTotals = {
  cleanings: number;
  units: number;
  /** Energy not lost any more up to today, or to the next cleaning [J]; null where no cleaning tells. */
  energy: number | null;
  money: CurrencyTotal[];
  /** Left out of the money: without a result, without a price of energy, without a cost. */
  withoutResult: DoneCleaning[];
  withoutPrice: DoneCleaning[];
  withoutCost: DoneCleaning[];
};

export function cleaningTotals(cleanings: readonly DoneCleaning[]): CleaningTotals {
  const energies = cleanings.flatMap(({ effect }) => effect?.energySoFar ?? []);
  const isTold = ({ effect }: DoneCleaning) => (effect?.energySoFar ?? null) !== null;
  const told = cleanings.filter(isTold);
  return {
    cleanings: cleanings.length,
    units: new Set(cleanings.map(({ tag }) => tag)).size,
    energy: energies.length === 0 ? null : energies.reduce((sum, energy) => sum + energy, 0),
    money: currencyTotals(told),
    withoutResult: cleanings.filter((cleaning) => !isTold(cleaning)),
    withoutPrice: told.filter(({ hasPrice }) => !hasPrice),
    withoutCost: told.filter(({ hasPrice, cost }) => hasPrice && cost === null),
  };
}

/** One total per currency, the largest cost first: money of two currencies is never added. */
function currencyTotals(cleanings: readonly DoneCleaning[]): CurrencyTotal[] {
  const totals = new Map<string, CurrencyTotal>();
  for (const { currency, worth, cost } of cleanings) {
    const net = netOf({ worth, cost });
    if (worth === null || cost === null || net === null) continue;
    const known = totals.get(currency) ?? { currency, cleanings: 0, paid: 0, worth: 0, cost: 0, net: 0 };
    totals.set(currency, {
      currency,
      cleanings: known.cleanings + 1,
      paid: known.paid + (net >= 0 ? 1 : 0),
      worth: known.worth + worth,
      cost: known.cost + cost,
      net: known.net + net,
    });
  }
  return [...totals.values()].sort((a, b) => b.cost - a.cost);
}
