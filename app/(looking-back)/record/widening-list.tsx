import Link from 'next/link';
import type { RecordView } from '@/lib/report/record/record-view';
import styles from './record.module.css';

/** By how much bands are spread now, and by whose record. */
export function WideningList({ widening }: { widening: RecordView['widening'] }) {
  return (
    <ul className={styles.widening}>
      {widening.map(({ from, sentence, units }) => (
        <li key={from}>
          {sentence}
          {units.length === 0 ? null : (
            <span className={styles.widened}>
              {units.map(({ tag, href, factor }) => (
                <span key={tag}>
                  <Link href={href} prefetch={false}>
                    {tag}
                  </Link>{' '}
                  × {factor}
                </span>
              ))}
            </span>
          )}
        </li>
      ))}
    </ul>
  );
}
