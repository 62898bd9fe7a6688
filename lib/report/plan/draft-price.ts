import { findClashes } from '@/lib/core/plan/find-clashes';
import type { Clash, PlanCost, Schedule } from '@/lib/core/plan/plan-problem';
import { costOf, type PricedCleaning, priceSchedule } from '@/lib/core/plan/price-schedule';
import { clashInWords, toldClashes } from './clash-words';
import type { PlanDraft } from './draft-plan';
import { overdueWaits } from './overdue-waits';
import { type PlanDesk, tagAt } from './plan-desk';

/** A constraint that a draft breaks: in words, and whose it is. `waits`: over its limit already, and put off. */
export type DraftClash = { kind: Clash['kind'] | 'waits'; words: string; tags: string[]; units: number[] };

/** What a draft costs and breaks, and each of its cleanings by itself. */
export type DraftPrice = { cost: PlanCost; clashes: DraftClash[]; cleanings: PricedCleaning[] };

export function priceDraft(desk: PlanDesk, { schedule }: Pick<PlanDraft, 'schedule'>): DraftPrice {
  const { cost, clashes, cleanings } = priceSchedule(desk.problem, schedule);
  return { cost, cleanings, clashes: inWords(desk, schedule, clashes) };
}

/** What moving the cleanings of one unit alone makes of the plan: cost against the draft before, and the clashes of that unit. */
export function priceMove(
  desk: PlanDesk,
  { unit, before, after }: { unit: number; before: PlanDraft; after: PlanDraft },
): { change: number; clashes: DraftClash[] } {
  const alone = { ...desk.problem, units: [desk.problem.units[unit]!] };
  const own = ({ schedule }: PlanDraft) => costOf(alone, [schedule[unit]!]).total;
  const clashes = findClashes(desk.problem, after.schedule).filter(({ units }) => units.includes(unit));
  return {
    change: own(after) - own(before),
    clashes: inWords(desk, after.schedule, clashes).filter(({ units }) => units.includes(unit)),
  };
}

function inWords(desk: PlanDesk, schedule: Schedule, clashes: Clash[]): DraftClash[] {
  const broken = toldClashes(clashes).map(
    (clash): Omit<DraftClash, 'tags'> => ({
      kind: clash.kind,
      words: clashInWords(clash, desk),
      units: clash.units,
    }),
  );
  const waits = overdueWaits(desk.problem, schedule, desk.compared).map(
    ({ unit, words }): Omit<DraftClash, 'tags'> => ({ kind: 'waits', words, units: [unit] }),
  );
  return [...broken, ...waits].map((clash) => ({
    ...clash,
    tags: clash.units.map((unit) => tagAt(desk, unit)),
  }));
}
