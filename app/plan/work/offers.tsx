import type { WorkRow } from '@/lib/report/work-list/work-row';
import { LinkForm } from './link-form';
import styles from './work.module.css';

/** Cleanings recorded elsewhere that may have been this piece of work. */
export function Offers({ row }: { row: WorkRow }) {
  return row.offers.map(({ cleaning, words }) => (
    <div key={cleaning} className={styles.offer}>
      <span>Recorded: {words}.</span>
      <LinkForm row={row} cleaning={cleaning} what={words} />
    </div>
  ));
}
