import Link from 'next/link';
import type { MouseEvent } from 'react';
import { PeriodForm } from '@/app/ui/period-form/period-form';
import type { PeriodControl } from '@/lib/report/unit/period-control';
import type { Days } from '@/lib/report/unit/zoom-days';
import { dayNumber } from '@/lib/time/calendar-day';
import styles from './period.module.css';

type Props = {
  period: PeriodControl;
  /** Called with the address of a choice that was clicked: without a script the link itself leads there. */
  onFollow: (event: MouseEvent, href: string) => void;
  onDays: (days: Days) => void;
};

/** The period of every chart on the page: named ones and steps as links, any other by its first and last day. */
export function PeriodBar({ period, onFollow, onDays }: Props) {
  const step = (href: string | null, sign: string, label: string) => (
    <Step href={href} sign={sign} label={label} onFollow={onFollow} />
  );
  return (
    <search className={`${styles.bar} screen-only`} aria-label="Period">
      <nav className={styles.choices} aria-label="Period">
        {step(period.previous, '‹', 'Earlier period')}
        {period.choices.map(({ name, label, href, isCurrent }) => (
          <Link
            key={name}
            className={styles.choice}
            href={href}
            scroll={false}
            prefetch={false}
            aria-current={isCurrent ? 'true' : undefined}
            onClick={(event) => onFollow(event, href)}
          >
            {label}
          </Link>
        ))}
        {step(period.next, '›', 'Later period')}
      </nav>
      <nav className={styles.choices} aria-label="Zoom">
        {step(period.zoomOut, '−', 'Zoom out')}
        {step(period.zoomIn, '+', 'Zoom in')}
        <Link
          className={styles.choice}
          href={period.reset}
          scroll={false}
          prefetch={false}
          onClick={(event) => onFollow(event, period.reset)}
        >
          Reset
        </Link>
      </nav>
      <PeriodForm
        period={period}
        onDays={(from, to) => onDays({ fromDay: dayNumber(from), toDay: dayNumber(to) })}
      />
    </search>
  );
}

type StepProps = { href: string | null; sign: string; label: string; onFollow: Props['onFollow'] };

function Step({ href, sign, label, onFollow }: StepProps) {
  if (href === null)
    return (
      <span className={styles.end} aria-hidden="true">
        {sign}
      </span>
    );
  return (
    <Link
      className={styles.step}
      href={href}
      scroll={false}
      prefetch={false}
      aria-label={label}
      onClick={(event) => onFollow(event, href)}
    >
      {sign}
    </Link>
  );
}
