'use client';

import { useActionState } from 'react';
import { Button } from '@/app/ui/button/button';
import type { CleaningForm as Form } from '@/lib/report/unit-view';
import { recordCleaningAction } from './cleaning-actions';
import styles from './entry-form.module.css';
import { NOTHING_YET } from './form-outcome';
import { OutcomeField, OutcomeNotice } from './outcome-field';

/** When, how, at what cost: the time is the site's own. */
export function CleaningForm({ form }: { form: Form }) {
  const [outcome, submit, isPending] = useActionState(recordCleaningAction, NOTHING_YET);
  const field = { form: 'cleaning', outcome };
  return (
    <form action={submit} className={`${styles.form} screen-only`}>
      <input type="hidden" name="tag" value={form.tag} />
      <OutcomeField
        {...field}
        name="at"
        label="Back in service"
        hint={`local time, ${form.timeZone}`}
        type="datetime-local"
        required
      />
      <OutcomeField {...field} name="method" label="Method" maxLength={120} defaultValue={form.method} />
      <OutcomeField
        {...field}
        name="cost"
        label="Cost"
        hint={form.currency}
        inputMode="decimal"
        defaultValue={form.cost}
      />
      <OutcomeField {...field} name="note" label="Note" maxLength={500} isWide />
      <div className={styles.end}>
        <Button type="submit" weight="primary" disabled={isPending}>
          {isPending ? 'Recording …' : 'Record cleaning'}
        </Button>
      </div>
      <OutcomeNotice outcome={outcome} />
    </form>
  );
}
