import Link from 'next/link';
import { Button } from '@/app/ui/button/button';
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
      <form className={styles.dates} method="get" key={`${period.from} ${period.to}`}>
        {Object.entries(period.kept).map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <input
          type="date"
          name="from"
          aria-label="First day"
          defaultValue={period.from}
          max={period.latest}
          required
        />
        <span aria-hidden="true">–</span>
        <input
          type="date"
          name="to"
          aria-label="Last day"
          defaultValue={period.to}
          max={period.latest}
          required
        />
        <Button type="submit" weight="quiet">
          Show
        </Button>
      </form>
    </search>
  );
}
