import type { FormEvent, ReactNode } from 'react';
import { Button } from '../button/button';
import styles from './period-form.module.css';

/** First and last day as YYYY-MM-DD, the last day there is, and what else of the address must stay. */
export type PeriodDays = { from: string; to: string; latest: string; kept: Record<string, string> };

/** Any period by its first and last day, asked for in the address; `children`: further fields of the same form. */
export function PeriodForm({
  period: { from, to, latest, kept },
  children,
  onDays,
}: {
  period: PeriodDays;
  children?: ReactNode;
  /** Called with the two days instead of loading the page anew. */
  onDays?: (from: string, to: string) => void;
}) {
  const submit = (event: FormEvent<HTMLFormElement>) => {
    const fields = new FormData(event.currentTarget);
    const [first, last] = [`${fields.get('from')}`, `${fields.get('to')}`];
    if (onDays === undefined || first > last) return;
    event.preventDefault();
    onDays(first, last);
  };
  return (
    <form
      className={styles.dates}
      method="get"
      key={`${from} ${to}`}
      onSubmit={onDays === undefined ? undefined : submit}
    >
      {Object.entries(kept).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <input type="date" name="from" aria-label="First day" defaultValue={from} max={latest} required />
      <span aria-hidden="true">–</span>
      <input type="date" name="to" aria-label="Last day" defaultValue={to} max={latest} required />
      {children}
      <Button type="submit" weight="quiet">
        Show
      </Button>
    </form>
  );
}
