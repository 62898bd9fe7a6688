import { useId } from 'react';
import { Button } from '@/app/ui/button/button';
import type { OutageDraft } from '@/lib/report/plan/calendar-draft';
import styles from './calendar.module.css';

type Props = { outages: OutageDraft[]; change: (outages: OutageDraft[]) => void };

/** The outages ahead, each a line to be changed or removed, and a new one. */
export function OutageRows({ outages, change }: Props) {
  const add = () =>
    change([
      ...outages,
      { key: newKey(outages), name: '', fromDay: '', toDay: '', crewHours: '', kept: null },
    ]);
  return (
    <fieldset className={styles.group}>
      <legend>Outages ahead</legend>
      {outages.length === 0 ? <p className={styles.none}>None is stated.</p> : null}
      <ul className={styles.rows}>
        {outages.map((outage, nth) => (
          <OutageLine
            key={outage.key}
            outage={outage}
            nth={nth + 1}
            change={(changed) => change(outages.with(nth, changed))}
            remove={() => change(outages.toSpliced(nth, 1))}
          />
        ))}
      </ul>
      <Button onClick={add}>Add an outage</Button>
    </fieldset>
  );
}

function newKey(outages: OutageDraft[]): string {
  const numbers = outages.map(({ key }) => Number(/^new (\d+)$/.exec(key)?.[1] ?? 0));
  return `new ${Math.max(0, ...numbers) + 1}`;
}

type LineProps = {
  outage: OutageDraft;
  nth: number;
  change: (outage: OutageDraft) => void;
  remove: () => void;
};

function OutageLine({ outage, nth, change, remove }: LineProps) {
  const id = useId();
  const field = (name: 'name' | 'fromDay' | 'toDay' | 'crewHours') => ({
    id: `${id}-${name}`,
    value: outage[name],
    onChange: (event: { target: { value: string } }) => change({ ...outage, [name]: event.target.value }),
  });
  const called = outage.name === '' ? `outage ${nth}` : outage.name;
  return (
    <li className={styles.line}>
      <label htmlFor={`${id}-name`}>
        <span>Name</span>
        <input {...field('name')} required maxLength={80} />
      </label>
      <label htmlFor={`${id}-fromDay`}>
        <span>First day</span>
        <input {...field('fromDay')} type="date" required />
      </label>
      <label htmlFor={`${id}-toDay`}>
        <span>Last day</span>
        <input {...field('toDay')} type="date" required min={outage.fromDay} />
      </label>
      <label htmlFor={`${id}-crewHours`}>
        <span>Crew hours</span>
        <input {...field('crewHours')} type="number" min={0} step="any" placeholder="as many as needed" />
      </label>
      <Button weight="quiet" onClick={remove} aria-label={`Remove ${called}`}>
        Remove
      </Button>
    </li>
  );
}
