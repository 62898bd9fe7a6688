import type { FleetCosts, Loss, UncertainLoss } from '@/lib/contract/costs';
import { sumOfLosses, sumWithUncertainty } from './loss';

/** What all sites of one currency lost, in the period and before it. */
type CurrencyLoss = { currency: string; now: UncertainLoss; before: Loss };

/** Energy and carbon of all sites together; money by currency, for that of two is never added. */
export type CostTotals = { now: UncertainLoss; before: Loss; byCurrency: CurrencyLoss[] };

export function costTotals({ sites }: Pick<FleetCosts, 'sites'>): CostTotals {
  const currencies = [...new Set(sites.map(({ currency }) => currency))];
  return {
    now: sumWithUncertainty(sites),
    before: sumOfLosses(sites.map(({ before }) => before)),
    byCurrency: currencies.map((currency) => {
      const own = sites.filter((site) => site.currency === currency);
      return { currency, now: sumWithUncertainty(own), before: sumOfLosses(own.map(({ before }) => before)) };
    }),
  };
}
