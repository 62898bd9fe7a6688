'use client';

import type { FormOutcome } from '@/app/units/[tag]/form-outcome';
import { OutcomeField } from '@/app/units/[tag]/outcome-field';
import type { WorkRow } from '@/lib/report/work-list/work-row';
import styles from '../plan.module.css';
import { moveWorkAction } from './work-actions';
import { WorkForm } from './work-form';

/** Moves a cleaning to another time; it takes as long as before. What it breaks there is said before it is moved. */
export function MoveForm({ row, what }: { row: WorkRow; what: string }) {
  return (
    <WorkForm row={row} what={what} label="Move" title="Move a cleaning" form="move" action={moveWorkAction}>
      {(field) => (
        <>
          <OutcomeField
            {...field}
            name="from"
            label="Out of service from"
            hint={`local time, ${row.timeZone}; it takes as long as before, and is priced anew; what it saves stays as planned`}
            type="datetime-local"
            required
            defaultValue={row.entries.from}
          />
          <OutcomeField {...field} name="reason" label="Why it is moved" maxLength={500} required isWide />
          <Anyway outcome={field.outcome} />
        </>
      )}
    </WorkForm>
  );
}

/** Takes the time in the form on, whatever it breaks; another time is checked by itself. */
function Anyway({ outcome }: { outcome: FormOutcome }) {
  if (outcome.kind !== 'refused' || outcome.errors.anyway === undefined) return null;
  return (
    <label className={styles.check}>
      <input type="checkbox" name="anyway" value={outcome.fields.from} />
      Move it there although {outcome.errors.anyway}
    </label>
  );
}
