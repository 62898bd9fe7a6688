import type { ReactNode } from 'react';
import type { TimeAxis } from '@/lib/report/format/time-axis';
import { AXIS_WIDTH, rightMarginCss } from '../chart/chart-margins';
import styles from './time-strip.module.css';

export type StripRow = {
  key: string;
  label: string;
  count: string;
  spans: { from: number; to: number }[];
  summary: string;
  /** What it means and what to do. */
  note: ReactNode;
};

/** Rows of stretches on the charts' own time axis: when something held. Hatched, for what is missing must look missing. */
export function TimeStrip({ axis, rows }: { axis: TimeAxis; rows: StripRow[] }) {
  const at = (time: number) =>
    (Math.min(Math.max((time - axis.from) / (axis.end - axis.from), 0), 1) * 100).toFixed(3);
  const inset = { paddingLeft: AXIS_WIDTH, paddingRight: rightMarginCss(axis) };
  return (
    <ul className={styles.strip}>
      {rows.map((row) => (
        <li key={row.key}>
          <p className={styles.label}>
            {row.label} <span className={styles.count}>{row.count}</span>
          </p>
          <div style={inset}>
            <div className={styles.lane} role="img" aria-label={row.summary}>
              {row.spans.map(({ from, to }) => (
                <div
                  key={from}
                  className={styles.span}
                  style={{
                    left: `${at(from)}%`,
                    width: `max(1.5px, ${(Number(at(to)) - Number(at(from))).toFixed(3)}%)`,
                  }}
                />
              ))}
              {axis.today === null ? null : (
                <div className={styles.today} style={{ left: `${at(axis.today)}%` }} />
              )}
            </div>
          </div>
          <p className={styles.note}>{row.note}</p>
        </li>
      ))}
    </ul>
  );
}
