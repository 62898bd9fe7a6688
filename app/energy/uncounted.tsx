import Link from 'next/link';
import type { UncountedRow } from '@/lib/report/energy/unit-rows';
import { countOf } from '@/lib/report/format/words';
import styles from './energy.module.css';

/** Units that stand open; the rest follow when asked for. */
const MOST_OPEN = 10;

/** Units that are in no sum of money, each with why. */
export function Uncounted({ rows }: { rows: UncountedRow[] }) {
  if (rows.length === 0) return null;
  const rest = rows.slice(MOST_OPEN);
  return (
    <div className={styles.uncounted}>
      <h3>Not in the list above</h3>
      <Units rows={rows.slice(0, MOST_OPEN)} />
      {rest.length === 0 ? null : (
        <details className={styles.details}>
          <summary>The other {countOf(rest.length, 'unit')}</summary>
          <Units rows={rest} />
        </details>
      )}
    </div>
  );
}

function Units({ rows }: { rows: UncountedRow[] }) {
  return (
    <ul>
      {rows.map(({ tag, href, why }) => (
        <li key={tag}>
          <Link href={href} prefetch={false}>
            {tag}
          </Link>
          : {why}.
        </li>
      ))}
    </ul>
  );
}
