import { PeriodForm } from '@/app/ui/period-form/period-form';
import type { CleaningsView } from '@/lib/report/cleanings/cleanings-view';
import { Choices } from '../choices';
import styles from './cleanings.module.css';

/** The period of the totals and the list: named ones as links, any other by its first and last day. */
export function CleaningsPeriod({ view }: { view: CleaningsView }) {
  return (
    <search className={`${styles.period} screen-only`} aria-label="Period">
      <Choices label="Period" choices={view.periods} />
      <PeriodForm period={view} />
    </search>
  );
}
