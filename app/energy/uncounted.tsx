import Link from 'next/link';
import type { UncountedRow } from '@/lib/report/energy/unit-rows';
import styles from './energy.module.css';

/** Units that are in no sum of money, each with why. */
export function Uncounted({ rows }: { rows: UncountedRow[] }) {
  if (rows.length === 0) return null;
  return (
    <div className={styles.uncounted}>
      <h3>Not in the list above</h3>
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
    </div>
  );
}
