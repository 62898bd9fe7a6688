import { Button } from '@/app/ui/button/button';
import { described, Field } from '@/app/ui/form/field';
import { Notice } from '@/app/ui/notice/notice';
import type { ReferenceForm as Form } from '@/lib/report/reference/reference-view';
import styles from './reference.module.css';

/** How another reference is to be worked out. A plain form: its values make the address, so that a link shows the same. */
export function ReferenceForm({ form }: { form: Form }) {
  return (
    <form method="get" action={`${form.action}#proposal`} className={`${styles.form} screen-only`}>
      {form.problems.map((problem) => (
        <Notice key={problem} kind="problem" title="Not worked out">
          {problem}
        </Notice>
      ))}
      <fieldset className={styles.group}>
        <legend>Method</legend>
        {form.methods.map(({ value, label, hint, isChosen }) => (
          <label key={value} className={styles.option}>
            <input type="radio" name="method" value={value} defaultChecked={isChosen} />
            <span>
              {label} <span className={styles.hint}>{hint}</span>
            </span>
          </label>
        ))}
      </fieldset>
      <fieldset className={styles.group}>
        <legend>Learn from</legend>
        <p className={styles.hint}>
          A period in which the unit was clean; the days after the last cleaning, unless you know better.
        </p>
        <div className={styles.fields}>
          <TimeField name="from" label="From" {...form.from} />
          <TimeField name="to" label="To" {...form.to} />
        </div>
      </fieldset>
      <fieldset className={styles.group}>
        <legend>Holds</legend>
        {form.holds.map(({ value, label, isChosen }) => (
          <label key={value} className={styles.option}>
            <input type="radio" name="holds" value={value} defaultChecked={isChosen} />
            <span>{label}</span>
          </label>
        ))}
        <TimeField name="holdsAt" label="Other time" {...form.holdsAt} />
      </fieldset>
      <div className={styles.actions}>
        <Button type="submit" weight="primary">
          Look at it
        </Button>
      </div>
    </form>
  );
}

type TimeProps = { name: string; label: string; value: string; error: string | null };

function TimeField({ name, label, value, error }: TimeProps) {
  return (
    <Field id={name} label={label} error={error}>
      <input {...described(name, error)} type="datetime-local" name={name} defaultValue={value} />
    </Field>
  );
}
