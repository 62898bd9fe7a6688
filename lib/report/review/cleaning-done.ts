import type { CleaningEffect, CleaningResult } from '@/lib/core/cycles/cleaning-result';

/** A cleaning as a review tells of it; `effect` is null while nobody can tell what it did. */
export type CleaningDone = {
  day: number;
  method: string | null;
  effect: Pick<
    CleaningEffect,
    | 'before'
    | 'beforeUncertainty'
    | 'after'
    | 'afterUncertainty'
    | 'shareRecovered'
    | 'shareRecoveredUncertainty'
    | 'isPartial'
  > | null;
};

type Recorded = { at: number; day: number; method: string | null };

/** Recorded cleanings with what the analysis says they did. */
export function cleaningsDone(
  recorded: readonly Recorded[],
  results: readonly CleaningResult[],
): CleaningDone[] {
  return recorded.map(({ at, day, method }) => ({
    day,
    method,
    effect: results.find((result) => result.at === at)?.effect ?? null,
  }));
}
