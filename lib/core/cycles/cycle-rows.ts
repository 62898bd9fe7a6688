import type { DailyColumns } from '../series/daily-columns';
import { type CycleSpan, firstRowAfter } from './split-cycles';

/** Where a cycle begins: instant of the recorded cleaning [ms], null without one, and local day. */
export type CycleStart = Pick<CycleSpan, 'start' | 'startDay'>;

/**
 * Rows of the daily figures that belong to each of some cycles told before.
 *
 * @param daily  daily figures, days ascending
 * @param cycles in order, the last one running: each ends where the next begins
 * @returns the cycles with their rows, `from` included, `to` excluded [-]
 * @range  any
 * @source METHODS §8, as `splitCycles`
 * @check  tests/core/cycles/cycle-rows.test.ts
 */
export function cycleRows<Each extends CycleStart>(
  daily: DailyColumns,
  cycles: readonly Each[],
): (Each & { from: number; to: number })[] {
  const firstRows = cycles.map(({ start, startDay }) =>
    firstRowAfter(daily, { at: start ?? Number.NEGATIVE_INFINITY, localDay: startDay }),
  );
  return cycles.map((cycle, index) => ({
    ...cycle,
    from: firstRows[index]!,
    to: firstRows[index + 1] ?? daily.day.length,
  }));
}
