import { formatInstant } from '@/lib/report/format/time';
import type { AnalysedUnit, PlannedRecord } from '@/lib/report/records';
import { DAY_MS } from '@/lib/time/calendar-day';

/** A cleaning recorded elsewhere lies this near to the hours of planned work where it may have been it [ms] (own choice). */
const REACH_MS = 14 * DAY_MS;

/** A recorded cleaning that may have been a piece of planned work. */
export type WorkOffer = { cleaning: number; words: string };

/** Cleanings of the unit near the work that belong to no other: offered, never assumed. */
export function workOffers(
  piece: PlannedRecord,
  { unit, work }: { unit: AnalysedUnit; work: readonly PlannedRecord[] },
): WorkOffer[] {
  const taken = new Set(work.map(({ cleaningId }) => cleaningId));
  return unit.cleanings
    .filter(({ id, at }) => !taken.has(id) && at >= piece.from - REACH_MS && at <= piece.to + REACH_MS)
    .map(({ id, at, method }) => ({
      cleaning: id,
      words: `cleaned ${formatInstant(at, unit.record.site.timeZone)}${method === null ? '' : `, ${method}`}`,
    }));
}
