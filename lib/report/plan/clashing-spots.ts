import type { PlanDraft } from './draft-plan';
import type { DraftPrice } from './draft-price';
import type { PlanDesk } from './plan-desk';

/**
 * The cleanings to be marked, unit by unit: those that are late themselves or whose unit clashes with others. Of a unit that is
 * over its limit the first is late anyway: it is marked where it waits.
 */
export function clashingSpots(
  { problem }: PlanDesk,
  { schedule }: Pick<PlanDraft, 'schedule'>,
  { clashes, cleanings }: DraftPrice,
): number[][] {
  const touched = new Set<number>();
  const waiting = new Set<number>();
  for (const { kind, units } of clashes)
    for (const unit of units)
      if (kind === 'waits') waiting.add(unit);
      else if (kind !== 'limit') touched.add(unit);
  const marked = problem.units.map((): number[] => []);
  for (const { unit, option, daysLate } of cleanings) {
    const isFirst = schedule[unit]![0] === option;
    const isExcused = isFirst && problem.units[unit]!.isOverdue;
    const waits = isFirst && waiting.has(unit);
    if (touched.has(unit) || waits || (daysLate > 0 && !isExcused)) marked[unit]!.push(option);
  }
  return marked;
}
