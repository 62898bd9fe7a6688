import type { CyclesResult } from '@/lib/contract/results';
import type { CleaningResult } from '@/lib/core/cycles/cleaning-result';
import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';
import { isoDay } from '@/lib/time/calendar-day';

/** The contract's cycles of a unit, the running one last. */
export function cyclesResult(tag: string, { cycles, cleaningResults }: UnitTrend): CyclesResult {
  const results = new Map<number | null, CleaningResult>(cleaningResults.map((one) => [one.at, one]));
  return {
    tag,
    cycles: cycles.map((cycle) => ({
      from: isoDay(cycle.startDay),
      to: isoDay(cycle.endDay),
      days: cycle.endDay - cycle.startDay,
      figures: cycle.figures,
      foulingAtStart: cycle.foulingAtStart,
      foulingAtEnd: cycle.foulingAtEnd,
      ratePerDay: cycle.growth?.ratePerDay ?? null,
      began: cycle.began,
      cleaning: cycle.began === 'cleaning' ? cleaningOf(results.get(cycle.start)) : null,
    })),
  };
}

function cleaningOf(result: CleaningResult | undefined): CyclesResult['cycles'][number]['cleaning'] {
  if (result === undefined) return null;
  const { effect, reason } = result;
  return {
    before: effect?.before ?? null,
    after: effect?.after ?? null,
    shareRecovered: effect?.shareRecovered ?? null,
    shareRecoveredUncertainty: effect?.shareRecoveredUncertainty ?? null,
    dutyRecovered: effect?.dutyRecovered ?? null,
    energyWorth: effect?.energySoFar ?? null,
    daysUntilBack: effect?.daysUntilBack ?? null,
    reason,
  };
}
