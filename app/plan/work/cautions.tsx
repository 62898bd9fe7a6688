import { CAUTION_HEAD, CAUTIONS } from '@/lib/report/plan/cautions';
import styles from './work.module.css';

/** What must be said wherever cleanings are listed. */
export function Cautions() {
  return (
    <p className={styles.caution}>
      <strong>{CAUTION_HEAD}</strong> {CAUTIONS.join(' ')}
    </p>
  );
}
