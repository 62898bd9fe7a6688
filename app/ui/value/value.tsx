import { type Figure, MISSING } from '@/lib/report/format/figure';
import styles from './value.module.css';

type Props = {
  figure: Figure;
  /** What it is, in small letters above; left out where a column head says it. */
  label?: string;
  /** Time or age it holds for, e.g. "3 h ago". */
  when?: string;
  /** Why there is no answer, shown instead of a bare dash. */
  missing?: string;
};

/** A number that is never alone: unit, uncertainty, and where given its label and time. */
export function Value({ figure, label, when, missing }: Props) {
  const isMissing = figure.number === MISSING;
  return (
    <span className={styles.value}>
      {label ? <span className={styles.label}>{label}</span> : null}
      {isMissing ? (
        <span className={styles.missing}>{missing ?? 'no answer'}</span>
      ) : (
        <span className={styles.figure}>
          {figure.number}
          {figure.uncertainty === null ? null : <span className={styles.side}> ± {figure.uncertainty}</span>}
          {figure.unit === '' ? null : <span className={styles.side}> {figure.unit}</span>}
        </span>
      )}
      {when ? <span className={styles.when}>{when}</span> : null}
    </span>
  );
}
