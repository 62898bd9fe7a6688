import type { ChartView } from '@/lib/report/format/chart-view';
import { type CsvCell, csvText } from '@/lib/report/format/csv';
import { localClock } from '@/lib/time/local-clock';

/** The chart's data as CSV: local time of the site, one column per line with its unit, empty where there is no value. */
export function chartCsv(view: ChartView): string {
  const columns = view.columns.filter(({ inTable }) => inTable !== false);
  const head = [
    `time (${view.axis.timeZone})`,
    ...columns.map(({ label, unit }) => (unit === '' ? label : `${label} [${unit}]`)),
  ];
  const remarks = view.lane?.remarks ?? [];
  const hasRemarks = remarks.some((remark) => remark !== null);
  if (hasRemarks) head.push('left out');
  const rows = view.time.flatMap((time, row): CsvCell[][] => {
    const values = columns.map(({ values }) => values[row] ?? null);
    const remark = remarks[row] ?? null;
    if (remark === null && values.every((value) => value === null)) return [];
    return [[localTime(view, time), ...values, ...(hasRemarks ? [remark] : [])]];
  });
  return csvText([head, ...rows]);
}

function localTime({ axis, isDaily }: ChartView, time: number): string {
  const clock = new Date(localClock(time, axis.timeZone)).toISOString();
  return isDaily ? clock.slice(0, 10) : clock.slice(0, 19).replace('T', ' ');
}
