import { Button } from '@/app/ui/button/button';
import type { Fault } from '@/lib/contract/app-error';
import type { OutageDraft } from '@/lib/report/plan/calendar-draft';
import styles from './calendar.module.css';
import { OutageLine } from './outage-line';

const NO_EDGE = { day: '', time: '' };

type Props = { outages: OutageDraft[]; faults: Fault[]; change: (outages: OutageDraft[]) => void };

/** The outages ahead, each a line to be changed or removed, and a new one. */
export function OutageRows({ outages, faults, change }: Props) {
  const add = () =>
    change([
      ...outages,
      { key: newKey(outages), name: '', from: NO_EDGE, to: NO_EDGE, crewHours: '', kept: null },
    ]);
  return (
    <fieldset className={styles.group}>
      <legend>Outages ahead</legend>
      {outages.length === 0 ? <p className={styles.none}>None is stated.</p> : null}
      <p className={styles.hint}>
        Without a time an outage begins at midnight and lasts to the end of its last day, by the site’s clock.
      </p>
      <ul className={styles.rows}>
        {outages.map((outage, nth) => (
          <OutageLine
            key={outage.key}
            outage={outage}
            nth={nth + 1}
            errors={{ from: errorOf(faults, nth, 'from'), to: errorOf(faults, nth, 'to') }}
            change={(changed) => change(outages.with(nth, changed))}
            remove={() => change(outages.toSpliced(nth, 1))}
          />
        ))}
      </ul>
      <Button onClick={add}>Add an outage</Button>
    </fieldset>
  );
}

function errorOf(faults: Fault[], nth: number, name: 'from' | 'to'): string | null {
  return faults.find(({ field }) => field === `outages[${nth}].${name}`)?.message ?? null;
}

function newKey(outages: OutageDraft[]): string {
  const numbers = outages.map(({ key }) => Number(/^new (\d+)$/.exec(key)?.[1] ?? 0));
  return `new ${Math.max(0, ...numbers) + 1}`;
}
