import type { Band } from '@/lib/core/growth/growth';
import type { ChartColumn } from '@/lib/report/format/chart-view';
import type { DisplayUnit } from '@/lib/report/format/display-unit';
import { DAY_MS } from '@/lib/time/calendar-day';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { ChartContext } from './chart-context';
import { plotted } from './chart-parts';

/** Instants of a chart and the columns over them. */
export type Rows = { time: number[]; columns: ChartColumn[] };

/** The unit a chart shows and the decimals of its figures. */
export type Shown = { shown: DisplayUnit; decimals: number };

/** Where the running cycle is heading, from today to the end of the axis; empty columns without a projection. */
export function projectedRows(
  { trend, axis }: ChartContext,
  band: Band | null,
  { shown, decimals }: Shown,
): Rows {
  const start = trend?.cycles.at(-1)?.startDay;
  const isShown = band !== null && start !== undefined && axis.today !== null;
  const origin = isShown ? startOfLocalDay(start, axis.timeZone) : 0;
  const ages = isShown ? Array.from(band.ageDays, (age) => Math.round(origin + age * DAY_MS)) : [];
  // One point past the axis, so that the band runs to its edge.
  const beyond = ages.findIndex((at) => at >= axis.end);
  const count = beyond < 0 ? ages.length : beyond + 1;
  return {
    time: ages.slice(0, count),
    columns: (['p10', 'p50', 'p90'] as const).map((role) => ({
      role,
      label: `projected ${role.toUpperCase()}`,
      unit: shown.label,
      decimals,
      values: isShown ? plotted(band[role].slice(0, count), shown) : [],
    })),
  };
}

/** Past and projection under each other: each column is empty in the other's rows. */
export function joinRows(past: Rows, projection: Rows): ChartColumn[] {
  const before = past.time.map(() => null);
  const after = projection.time.map(() => null);
  return [
    ...past.columns.map((column) => ({ ...column, values: [...column.values, ...after] })),
    ...projection.columns.map((column) => ({ ...column, values: [...before, ...column.values] })),
  ];
}
