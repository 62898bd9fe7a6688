import type { LimitResult } from '@/lib/core/pipeline/unit-trend';
import type { ChartCleanBy } from '@/lib/report/format/chart-view';
import { formatDay } from '@/lib/report/format/time';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { startOfLocalDay } from '@/lib/time/local-day';

/** The days a limit is projected to be reached, drawn at its line; null where none is, or it is behind already. */
export function cleanByBar(
  limit: LimitResult | null,
  axis: TimeAxis,
  level: number | undefined,
): ChartCleanBy | null {
  if (limit === null || level === undefined || axis.today === null || limit.crossedDay !== null) return null;
  const { p10Day, p50Day, p90Day } = limit;
  if (p10Day === null || p50Day === null) return null;
  const at = (day: number) => startOfLocalDay(day, axis.timeZone);
  return {
    p10: at(p10Day),
    p50: at(p50Day),
    p90: p90Day === null ? null : at(p90Day),
    level,
    label: `projected ${formatDay(p50Day)}`,
  };
}
