import { firstRowAfter } from '@/lib/core/cycles/split-cycles';
import type { Cycle } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';

/** Rows of the daily figures that belong to each cycle: `from` included, `to` excluded. */
export function cycleRows<Each extends Pick<Cycle, 'start' | 'startDay'>>(
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
