import type { FleetView } from '@/lib/report/fleet-view';
import styles from './fleet.module.css';

/** One faint line per month behind all rows. */
export function MonthLines({ view }: { view: FleetView }) {
  return (
    <div className={`${styles.grid} ${styles.columns}`}>
      <svg aria-hidden="true">
        <title>months</title>
        {view.months.map(({ at }) => (
          <line key={at} x1={`${at * 100}%`} x2={`${at * 100}%`} y1="0" y2="100%" />
        ))}
      </svg>
    </div>
  );
}
