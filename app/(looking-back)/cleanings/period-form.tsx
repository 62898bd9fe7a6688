import { Button } from '@/app/ui/button/button';
import type { CleaningsView } from '@/lib/report/cleanings/cleanings-view';
import { Choices } from '../choices';
import styles from './cleanings.module.css';

/** The period of the totals and the list: named ones as links, any other by its first and last day. */
export function PeriodForm({ view }: { view: CleaningsView }) {
  return (
    <search className={`${styles.period} screen-only`} aria-label="Period">
      <Choices label="Period" choices={view.periods} />
      <form className={styles.dates} method="get" key={`${view.from} ${view.to}`}>
        {Object.entries(view.kept).map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <input
          type="date"
          name="from"
          aria-label="First day"
          defaultValue={view.from}
          max={view.latest}
          required
        />
        <span aria-hidden="true">–</span>
        <input
          type="date"
          name="to"
          aria-label="Last day"
          defaultValue={view.to}
          max={view.latest}
          required
        />
        <Button type="submit" weight="quiet">
          Show
        </Button>
      </form>
    </search>
  );
}
