import type { CleaningRow } from '@/lib/report/cleanings/cleaning-row';
import styles from './cleanings.module.css';

const percent = (share: number) => `${(100 * share).toFixed(1)}%`;

/** Fouling before (hollow) and after (filled) between clean, at the left, and the dotted limit. */
export function FallBar({ fall }: { fall: CleaningRow['fall'] }) {
  if (fall === null) return null;
  const { before, after, limit } = fall;
  return (
    <svg className={styles.fall} aria-hidden="true">
      <title>fouling before and after</title>
      <line className={styles.fallAxis} x1="0" x2="100%" y1="50%" y2="50%" />
      <line className={styles.fallLimit} x1={percent(limit)} x2={percent(limit)} y1="0" y2="100%" />
      <line className={styles.fallLine} x1={percent(after)} x2={percent(before)} y1="50%" y2="50%" />
      <circle className={styles.fallBefore} cx={percent(before)} cy="50%" r="4" />
      <circle className={styles.fallAfter} cx={percent(after)} cy="50%" r="4" />
    </svg>
  );
}
