import type { ChartView } from '@/lib/report/format/chart-view';
import { formatNumber } from '@/lib/report/format/figure';
import { formatDay, formatInstant } from '@/lib/report/format/time';
import { localDay } from '@/lib/time/local-clock';
import styles from './chart.module.css';
import type { ChartRow } from './chart-rows';

/** What is under the pointer: the time, and every value there with its unit. */
export function ChartTip({
  view,
  row,
  canPick,
}: {
  view: ChartView;
  row: ChartRow | null;
  canPick: boolean;
}) {
  if (!row) return null;
  const shown = view.columns.flatMap((column, place) => {
    const value = row.values[place];
    return value == null || column.inTable === false ? [] : [{ column, value }];
  });
  const remark = view.lane?.remarks[view.time.indexOf(row.time)] ?? null;
  if (shown.length === 0 && remark === null) return null;
  const isPast = row.time <= (view.axis.today ?? view.axis.end);
  return (
    <div className={styles.tip}>
      <p className={styles.tipTime}>{rowTime(view, row.time)}</p>
      {shown.map(({ column, value }) => (
        <p key={column.label} className={styles.tipRow}>
          <span>{column.label}</span>
          <strong>
            {formatNumber(value, column.decimals)} {column.unit}
          </strong>
        </p>
      ))}
      {remark === null ? null : <p className={styles.tipRemark}>{remark}</p>}
      {canPick && isPast ? <p className={styles.tipHint}>Click to work this reading out</p> : null}
    </div>
  );
}

/** The time of a row in the site's zone: a day for daily figures, else with its time of day. */
export function rowTime({ axis, isDaily }: ChartView, time: number): string {
  return isDaily ? formatDay(localDay(time, axis.timeZone)) : formatInstant(time, axis.timeZone);
}
