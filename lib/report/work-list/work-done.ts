import type { AnalysedUnit, PlannedRecord } from '@/lib/report/records';

/** What a piece of work was in fact, out of the cleaning recorded for it [ms]. */
export type WorkAsDone = { from: number; to: number; method: string | null; cost: number | null };

/** Null where none is recorded. Out of service as long as the cleaning says, else as long as was planned. */
export function workAsDone(piece: PlannedRecord, unit: AnalysedUnit | undefined): WorkAsDone | null {
  const cleaning = unit?.cleanings.find(({ id }) => id === piece.cleaningId);
  if (cleaning === undefined) return null;
  const { at, durationMs, method, cost } = cleaning;
  return { from: at - (durationMs ?? piece.to - piece.from), to: at, method, cost };
}
