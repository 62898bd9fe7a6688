import type { UnitTrend } from '@/lib/core/pipeline/unit-trend';

/** A cleaning as a review tells of it: shares of the allowance used just before and just after [-]; null where not known. */
export type CleaningDone = { day: number; method: string | null; dirty: number | null; clean: number | null };

type Recorded = { at: number; day: number; method: string | null };

/** What the cycles on either side of each cleaning say it did. */
export function cleaningsDone(
  recorded: readonly Recorded[],
  { cycles, limits, governing }: Pick<UnitTrend, 'cycles' | 'limits' | 'governing'>,
): CleaningDone[] {
  const allowance = governing === null ? null : limits[governing]!.foulingResistance;
  const share = (fouling: number | null | undefined) =>
    allowance === null || !(allowance > 0) || fouling === null || fouling === undefined
      ? null
      : fouling / allowance;
  return recorded.map(({ at, day, method }) => {
    const index = cycles.findIndex(({ start }) => start === at);
    return {
      day,
      method,
      dirty: share(cycles[index - 1]?.foulingAtEnd),
      clean: share(cycles[index]?.foulingAtStart),
    };
  });
}
