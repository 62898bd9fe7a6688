import type { UnitRow } from '@/lib/report/energy/unit-rows';
import styles from './energy.module.css';

const percent = (share: number) => `${(100 * share).toFixed(1)}%`;

/** A unit's cost against the dearest as a bar, the running share of the whole as a tick and in figures. */
export function ParetoBar({ row }: { row: Pick<UnitRow, 'bar' | 'share' | 'cumulative'> }) {
  return (
    <span className={styles.pareto}>
      <svg className={styles.bar} aria-hidden="true">
        <title>share of the whole</title>
        <line className={styles.axis} x1="0" x2="100%" y1="100%" y2="100%" />
        <rect className={styles.fill} x="0" y="20%" width={percent(row.bar)} height="60%" />
        <line className={styles.running} x1={percent(row.share)} x2={percent(row.share)} y1="0" y2="100%" />
      </svg>
      <span className={styles.cumulative}>{row.cumulative}</span>
    </span>
  );
}
