import Link from 'next/link';
import { PeriodForm } from '@/app/ui/period-form/period-form';
import type { PeriodControl } from '@/lib/report/unit/period-control';
import styles from './period.module.css';

/** The period of every chart on the page: named ones as links, any other by its first and last day. */
export function PeriodBar({ period }: { period: PeriodControl }) {
  return (
    <search className={`${styles.bar} screen-only`} aria-label="Period">
      <nav className={styles.choices} aria-label="Period">
        <Link className={styles.step} href={period.previous} scroll={false} aria-label="Earlier period">
          ‹
        </Link>
        {period.choices.map(({ name, label, href, isCurrent }) => (
          <Link
            key={name}
            className={styles.choice}
            href={href}
            scroll={false}
            aria-current={isCurrent ? 'true' : undefined}
          >
            {label}
          </Link>
        ))}
        {period.next === null ? (
          <span className={styles.end} aria-hidden="true">
            ›
          </span>
        ) : (
          <Link className={styles.step} href={period.next} scroll={false} aria-label="Later period">
            ›
          </Link>
        )}
      </nav>
      <PeriodForm period={period} />
    </search>
  );
}
