import type { ChartView } from '@/lib/report/format/chart-view';
import { formatNumber, MISSING } from '@/lib/report/format/figure';
import { Table } from '../table/table';
import styles from './chart.module.css';
import { rowTime } from './chart-tip';

/** The chart's data as a table: the same rows, the same columns, the same units. */
export function ChartTable({ view }: { view: ChartView }) {
  const columns = view.columns.flatMap((column, place) =>
    column.inTable === false ? [] : [{ ...column, place }],
  );
  const rows = view.time.flatMap((time, row) => {
    const values = columns.map(({ values }) => values[row] ?? null);
    const remark = view.lane?.remarks[row] ?? null;
    return remark === null && values.every((value) => value === null) ? [] : [{ time, values, remark }];
  });
  const hasRemarks = rows.some(({ remark }) => remark !== null);
  return (
    <div className={styles.table}>
      <Table
        caption={`${view.title}, ${rows.length} rows`}
        columns={[
          { key: 'time', head: view.isDaily ? 'Day' : `Time (${view.axis.timeZone})` },
          ...columns.map(({ label, unit, place }) => ({
            key: `${place}`,
            head: label,
            unit,
            isNumber: true,
          })),
          ...(hasRemarks ? [{ key: 'remark', head: 'Left out' }] : []),
        ]}
        rowHead="time"
        rows={rows.map(({ time, values, remark }) => ({
          key: `${time}`,
          cells: Object.fromEntries([
            ['time', rowTime(view, time)],
            ['remark', remark ?? ''],
            ...columns.map(({ place, decimals }, index) => [
              `${place}`,
              cell(values[index] ?? null, decimals),
            ]),
          ]),
        }))}
      />
    </div>
  );
}

function cell(value: number | null, decimals: number): string {
  return value === null ? MISSING : formatNumber(value, decimals);
}
