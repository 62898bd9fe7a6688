import type { SummaryRow } from '@/lib/report/record/summary-row';
import styles from './record.module.css';

const percent = (share: number) => `${(100 * share).toFixed(1)}%`;

/** Share held between 0 and 100 %: what chance allows as a band, the share as a mark, the aim as a line. */
export function HeldBar({ bar, aim }: { bar: SummaryRow['bar']; aim: number }) {
  if (bar === null) return null;
  const range = `by chance ${Math.round(100 * bar.low)} to ${Math.round(100 * bar.high)} %`;
  return (
    <svg className={styles.held} role="img" aria-label={range}>
      <title>{range}</title>
      <line className={styles.heldAxis} x1="0" x2="100%" y1="50%" y2="50%" />
      <rect
        className={styles.heldRange}
        x={percent(bar.low)}
        width={percent(bar.high - bar.low)}
        y="25%"
        height="50%"
      />
      <line className={styles.heldAim} x1={percent(aim)} x2={percent(aim)} y1="0" y2="100%" />
      <circle className={styles.heldShare} cx={percent(bar.share)} cy="50%" r="3.5" />
    </svg>
  );
}
