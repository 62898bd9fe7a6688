import Link from 'next/link';
import type { WorkRow } from '@/lib/report/work-list/work-row';
import styles from './work.module.css';

/** The unit of a row: tag, service, and its site where there are several. */
export function UnitCell({ row }: { row: WorkRow }) {
  return (
    <>
      <Link href={row.href} prefetch={false}>
        {row.tag}
      </Link>
      <span className={styles.small}>{row.about}</span>
    </>
  );
}

/** What was changed about a piece of work, folded away. */
export function History({ row }: { row: WorkRow }) {
  if (row.history.length === 0) return null;
  return (
    <details className={styles.history}>
      <summary>
        History<span className="unseen"> of the cleaning of {row.tag}</span> ({row.history.length})
      </summary>
      <ul>
        {row.history.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}
