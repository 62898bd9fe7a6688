import type { UnitStatement } from '@/lib/contract/review';

/** Which way a clean-by day has moved, if by more than its own uncertainty. */
export type CleanByMove = 'sooner' | 'later' | null;

/**
 * The rule: a clean-by day has moved when its median now lies outside the P10 to P90 that was stated then, which is the
 * same as a move by more than the half-width of then's band on that side. Landing on P10 or P90 is no move. A day beyond
 * the horizon counts as beyond the horizon's end: out of it is later, into it sooner, where the stated band did not
 * already reach that far. Where it was, or is, too early to say there is nothing to compare.
 */
export function cleanByMove(
  { before, beforeDay }: { before: UnitStatement; beforeDay: number },
  { now, nowDay }: { now: UnitStatement; nowDay: number },
): CleanByMove {
  if (before.withinHorizon === null || now.withinHorizon === null) return null;
  const earliest = before.p10Day ?? beforeDay + before.horizonDays;
  const latest = before.p90Day ?? Number.POSITIVE_INFINITY;
  const median = now.p50Day ?? nowDay + now.horizonDays;
  // Beyond both horizons: whatever moved there, nobody can tell.
  if (now.p50Day === null && before.p50Day === null) return null;
  if (now.p50Day !== null && median < earliest) return 'sooner';
  return median > latest ? 'later' : null;
}
