import { formatNumber } from '@/lib/report/format/figure';
import styles from './fleet.module.css';

/** On paper: how much of a long list is there, and how to get the rest. */
export function FleetPrinted({ printed, of }: { printed: number; of: number }) {
  if (printed >= of) return null;
  return (
    <p className={`${styles.caption} print-only`}>
      The first {formatNumber(printed, 0)} of {formatNumber(of, 0)} rows: choose fewer units by state or site
      to print them all, or save them as CSV.
    </p>
  );
}
