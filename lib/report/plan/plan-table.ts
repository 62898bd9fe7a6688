import type { CleaningReason } from '@/lib/contract/plan';
import { formatDay } from '@/lib/report/format/time';
import { cleanBefore } from './clean-before';
import type { PlanDraft } from './draft-plan';
import type { DraftPrice } from './draft-price';
import { optionAt, type PlanDesk, type Spot, tagAt } from './plan-desk';
import { durationInWords, momentInWords, whereInWords } from './plan-words';

/** Why a cleaning is in the plan, in words. */
const REASONS: Record<CleaningReason, string> = {
  limit: 'its limit asks for it',
  'over-limit': 'over its limit',
  pays: 'it pays',
  locked: 'locked by the planner',
};

/** One cleaning of a draft as words and figures; money in the currency of the site. */
export type PlanTableRow = {
  spot: Spot;
  tag: string;
  start: number;
  startWords: string;
  endWords: string;
  duration: string;
  where: string;
  reason: string;
  method: string | null;
  crewHours: number;
  cost: number;
  /** Null where the unit has no price. */
  saves: number | null;
  cleanBefore: string | null;
  daysLate: number;
  isLocked: boolean;
};

/** All cleanings of a draft, the earliest first. */
export function planTable(desk: PlanDesk, draft: PlanDraft, { cleanings }: DraftPrice): PlanTableRow[] {
  return cleanings
    .map(({ unit, option, cost, saves, reason, cleanBefore: deadline, daysLate }): PlanTableRow => {
      const { start, end } = optionAt(desk, { unit, option });
      const { cleaning, heatRates, pumpingRates } = desk.input.units[unit]!;
      const { method, crewHours } = cleaning;
      const isPriced = heatRates.length + pumpingRates.length > 0;
      const isLocked = draft.locked[unit]!.includes(option);
      return {
        spot: { unit, option },
        tag: tagAt(desk, unit),
        start,
        startWords: momentInWords(start),
        endWords: momentInWords(end),
        duration: durationInWords(end - start),
        where: whereInWords(desk, { unit, option }),
        reason: isLocked && reason !== 'locked' ? `${REASONS[reason]}; locked` : REASONS[reason],
        method,
        crewHours,
        cost,
        saves: isPriced ? saves : null,
        cleanBefore: deadline === null ? null : formatDay(cleanBefore(deadline, start)),
        daysLate: Math.ceil(daysLate),
        isLocked,
      };
    })
    .sort((a, b) => a.start - b.start || a.tag.localeCompare(b.tag));
}
