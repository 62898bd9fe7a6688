import { REASONS } from '@/lib/core/checks/reasons';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import type { ChartSpan } from '@/lib/report/format/chart-view';
import { formatDay } from '@/lib/report/format/time';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { REASON_WORDS } from '@/lib/report/format/words';
import { startOfLocalDay } from '@/lib/time/local-day';

/** Stretches without a figure are marked from this length on [d]; shorter ones show as breaks in the line (own choice). */
const SHORTEST_MARKED_DAYS = 7;

/** Stands for days with accepted readings that lack the value: no index of a reason. */
const NOT_MEASURED = REASONS.length;

/** Stretches of an axis without any daily figure, each with its cause and since when: missing must look missing. */
export function missingSpans(
  daily: DailyColumns,
  axis: TimeAxis,
  today: number,
  column: Float64Array = daily.foulingResistance,
): ChartSpan[] {
  const known = Array.from(daily.day).filter((_, row) => Number.isFinite(column[row]!));
  if (known.length === 0) return [];
  // A day that is not over yet is not missing.
  const days = axis.today === null ? known : [...known, today];
  return days.flatMap((day, i) => {
    const after = days[i - 1];
    if (after === undefined || day - after <= SHORTEST_MARKED_DAYS) return [];
    const from = startOfLocalDay(after + 1, axis.timeZone);
    const to = startOfLocalDay(day, axis.timeZone);
    if (to <= axis.from || from >= axis.end) return [];
    const label = `${causeOf(daily, after, day)} since ${formatDay(after + 1, { year: false })}`;
    return [{ from: Math.max(from, axis.from), to: Math.min(to, axis.end), label }];
  });
}

/**
 * The reason that left out most of the days in between; days without a row had no reading at all, and where readings were
 * accepted the value itself was not among them.
 */
function causeOf(daily: DailyColumns, after: number, before: number): string {
  const counts = new Map<number, number>();
  daily.day.forEach((day, row) => {
    if (day <= after || day >= before) return;
    const reason = daily.accepted[row]! > 0 ? NOT_MEASURED : daily.worstReason[row]!;
    counts.set(reason, (counts.get(reason) ?? 0) + 1);
  });
  const [worst] = [...counts].sort(([, a], [, b]) => b - a);
  if (worst?.[0] === NOT_MEASURED) return 'not measured';
  const reason = worst === undefined ? undefined : REASONS[worst[0]];
  return reason === undefined ? 'no readings' : REASON_WORDS[reason];
}
