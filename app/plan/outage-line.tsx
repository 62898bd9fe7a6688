import { type ReactNode, useId } from 'react';
import { Button } from '@/app/ui/button/button';
import { described, FieldError } from '@/app/ui/form/field';
import type { OutageDraft, OutageEdge } from '@/lib/report/plan/calendar-draft';
import styles from './calendar.module.css';

type Props = {
  outage: OutageDraft;
  /** From 1. */
  nth: number;
  /** What is wrong with its beginning and its end. */
  errors: { from: string | null; to: string | null };
  change: (outage: OutageDraft) => void;
  remove: () => void;
};

/** An outage in the form: its name, when it begins and ends, the work that fits into it. */
export function OutageLine({ outage, nth, errors, change, remove }: Props) {
  const id = useId();
  const field = (name: 'name' | 'crewHours') => ({
    id: `${id}-${name}`,
    value: outage[name],
    onChange: (event: { target: { value: string } }) => change({ ...outage, [name]: event.target.value }),
  });
  const called = outage.name === '' ? `outage ${nth}` : outage.name;
  const edge = (name: 'from' | 'to') => ({
    id: `${id}-${name}`,
    edge: outage[name],
    error: errors[name],
    change: (changed: OutageEdge) => change({ ...outage, [name]: changed }),
  });
  return (
    <li className={styles.line}>
      <label htmlFor={`${id}-name`}>
        <span>Name</span>
        <input {...field('name')} required maxLength={80} />
      </label>
      <Edge {...edge('from')} dayName="First day" timeName="from">
        empty: from midnight on
      </Edge>
      <Edge {...edge('to')} dayName="Last day" timeName="until">
        empty: to the end of the day
      </Edge>
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

type EdgeProps = {
  id: string;
  edge: OutageEdge;
  error: string | null;
  change: (edge: OutageEdge) => void;
  dayName: string;
  timeName: string;
  /** What an empty time means. */
  children: ReactNode;
};

function Edge({ id, edge, error, change, dayName, timeName, children }: EdgeProps) {
  return (
    <div className={styles.edge}>
      <label htmlFor={id}>
        <span>{dayName}</span>
        <input
          {...described(id, error)}
          type="date"
          required
          value={edge.day}
          onChange={(event) => change({ ...edge, day: event.target.value })}
        />
      </label>
      <label htmlFor={`${id}-time`}>
        <span>
          {timeName}
          <span className="unseen">, {children}</span>
        </span>
        <input
          id={`${id}-time`}
          type="time"
          aria-invalid={error === null ? undefined : true}
          aria-describedby={error === null ? undefined : `${id}-error`}
          value={edge.time}
          onChange={(event) => change({ ...edge, time: event.target.value })}
        />
      </label>
      <FieldError id={id} error={error} />
    </div>
  );
}
