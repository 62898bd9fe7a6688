import type { ChartView } from '@/lib/report/format/chart-view';

/** A row as the chart library wants it: the instant, and one value per column by its place. */
export type ChartRow = { time: number; values: (number | null)[] };

export function chartRows({ time, columns }: ChartView): ChartRow[] {
  return time.map((at, row) => ({ time: at, values: columns.map(({ values }) => values[row] ?? null) }));
}

/** Place of the columns of one role. */
export function placesOf(view: ChartView, role: string): number[] {
  return view.columns.flatMap((column, place) => (column.role === role ? place : []));
}

/** A pair of columns as a range, null where either is missing. */
export function rangeKey(low: number | undefined, high: number | undefined) {
  return (row: ChartRow): [number, number] | null => {
    const from = low === undefined ? null : row.values[low];
    const to = high === undefined ? null : row.values[high];
    return from == null || to == null ? null : [from, to];
  };
}
