import { REASONS, type Reason } from '@/lib/core/checks/reasons';
import type { UnitHealth } from './unit-health';

/** How many readings of the fleet a reason left out in the last 30 days, and of how many units. */
export type ReasonCount = { reason: Reason; readings: number; units: { tag: string; readings: number }[] };

/** Reasons by readings left out, the most frequent first. */
export function reasonCounts(units: readonly UnitHealth[]): ReasonCount[] {
  return REASONS.map((reason): ReasonCount => {
    const hit = units
      .map(({ tag, leftOut }) => ({ tag, readings: leftOut.get(reason) ?? 0 }))
      .filter(({ readings }) => readings > 0)
      .sort((a, b) => b.readings - a.readings);
    return { reason, readings: hit.reduce((sum, { readings }) => sum + readings, 0), units: hit };
  })
    .filter(({ readings }) => readings > 0)
    .sort((a, b) => b.readings - a.readings);
}
