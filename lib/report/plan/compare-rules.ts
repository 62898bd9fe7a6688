import type { PlanResult } from '@/lib/contract/plan';
import { formatNumber } from '@/lib/report/format/figure';
import { countOf } from '@/lib/report/format/words';
import type { DraftPrice } from './draft-price';

/** One way to plan the same fleet: what it costs and what it would break; money in the currency of the site. */
export type ComparedRule = {
  key: 'draft' | 'solved' | 'next-outage' | 'interval' | 'none';
  name: string;
  /** What a plain rule does, in a sentence; null for the solved plan and the draft. */
  does: string | null;
  /** null where the rule cannot be followed. */
  total: number | null;
  cost: { cleaning: number; downtime: number; loss: number } | null;
  cleanings: number;
  /** Cost against the solved plan; null for itself and where there is none. */
  more: number | null;
  /** Total as share of the greatest of all [-]. */
  share: number;
  broken: string[];
};

/** The solved plan beside the plain rules, on the same inputs; the draft too where it was changed. */
export function compareRules(
  result: PlanResult,
  draft: { price: DraftPrice; isChanged: boolean },
): ComparedRule[] {
  const { allAtNextOutage, fixedInterval, noCleaning } = result.compared;
  const { days } = fixedInterval;
  const solved = result.cost.total;
  const rules: Omit<ComparedRule, 'share' | 'more'>[] = [
    {
      key: 'solved',
      name: 'The solved plan',
      does: null,
      total: solved,
      cost: result.cost,
      cleanings: result.cleanings.length,
      broken: result.clashes.map(({ constraint }) => constraint),
    },
    {
      key: 'next-outage',
      name: 'Everything at the next outage',
      does: 'every unit at the next outage of its site while crew lasts, then at the one after; sooner, or again, only where its limit asks for it',
      ...allAtNextOutage,
    },
    {
      key: 'interval',
      name: days === null ? 'A fixed interval' : `A fixed interval of ${formatNumber(days, 0)} days`,
      does: `every unit every ${days === null ? 'so many' : formatNumber(days, 0)} days at the next place with room, earlier where its limit asks for it; the one interval for all that costs least`,
      total: fixedInterval.total,
      cost: fixedInterval.cost,
      cleanings: fixedInterval.cleanings,
      broken: fixedInterval.broken,
    },
    {
      key: 'none',
      name: 'No cleaning at all',
      does: 'every unit is left as it is to the end of the plan',
      total: noCleaning.total,
      cost: { cleaning: 0, downtime: 0, loss: noCleaning.total },
      cleanings: 0,
      broken: beyondInWords(noCleaning.beyondLimit),
    },
  ];
  const { price, isChanged } = draft;
  if (isChanged)
    rules.unshift({
      key: 'draft',
      name: 'As it stands now',
      does: null,
      total: price.cost.total,
      cost: price.cost,
      cleanings: price.cleanings.length,
      broken: price.clashes.map(({ words }) => words),
    });
  const greatest = Math.max(1, ...rules.map(({ total }) => total ?? 0));
  return rules.map((rule) => ({
    ...rule,
    more: rule.total === null || rule.key === 'solved' ? null : rule.total - solved,
    share: (rule.total ?? 0) / greatest,
  }));
}

function beyondInWords(units: number): string[] {
  if (units === 0) return [];
  return [`${countOf(units, 'unit')} ${units === 1 ? 'goes beyond its limit' : 'go beyond their limits'}`];
}
