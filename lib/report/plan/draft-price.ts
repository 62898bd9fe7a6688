import type { Clash, PlanCost } from '@/lib/core/plan/plan-problem';
import { type PricedCleaning, priceSchedule } from '@/lib/core/plan/price-schedule';
import { clashInWords } from './clash-words';
import type { PlanDraft } from './draft-plan';
import { type PlanDesk, tagAt } from './plan-desk';

/** A constraint that a draft breaks: in words, and whose it is. */
export type DraftClash = { kind: Clash['kind']; words: string; tags: string[]; units: number[] };

/** What a draft costs and breaks, and each of its cleanings by itself. */
export type DraftPrice = { cost: PlanCost; clashes: DraftClash[]; cleanings: PricedCleaning[] };

export function priceDraft(desk: PlanDesk, { schedule }: Pick<PlanDraft, 'schedule'>): DraftPrice {
  const { cost, clashes, cleanings } = priceSchedule(desk.problem, schedule);
  return {
    cost,
    cleanings,
    clashes: clashes.map((clash) => ({
      kind: clash.kind,
      words: clashInWords(clash, desk),
      tags: clash.units.map((unit) => tagAt(desk, unit)),
      units: clash.units,
    })),
  };
}
