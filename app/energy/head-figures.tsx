import type { Headline } from '@/lib/report/energy/headline';
import styles from './energy.module.css';

/** The figures a manager came for, each beside what it was before, and what they stand on. */
export function HeadFigures({ headline }: { headline: Headline }) {
  return (
    <>
      <dl className={styles.figures}>
        {headline.figures.map(({ label, value, change }) => (
          <div key={label} className={styles.figure}>
            <dt>{label}</dt>
            <dd>
              <span className={styles.value}>{value}</span>
              {change === '' ? null : <span className={styles.change}>{change}</span>}
            </dd>
          </div>
        ))}
      </dl>
      {headline.counted.map((line) => (
        <p key={line} className={styles.counted}>
          {line}
        </p>
      ))}
    </>
  );
}
