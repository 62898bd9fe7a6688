'use client';

import { useActionState, useEffect } from 'react';
import { Allowed } from '@/app/access/rights';
import { Button } from '@/app/ui/button/button';
import type { CleaningEntries } from '@/lib/report/unit/cleaning-rows';
import type { CleaningForm } from '@/lib/report/unit-view';
import { correctCleaningAction } from './cleaning-actions';
import styles from './entry-form.module.css';
import { FormDialog } from './form-dialog';
import { NOTHING_YET } from './form-outcome';
import { OutcomeField, OutcomeNotice } from './outcome-field';

type Props = { form: CleaningForm; entries: CleaningEntries };

/** Sets right what was recorded of a cleaning; what it was before is kept. */
export function CorrectCleaningForm({ what, ...props }: Props & { what: string }) {
  return (
    <Allowed right="clean">
      <FormDialog label="Correct" what={what} title="Correct a recorded cleaning">
        {(close) => <Fields {...props} close={close} />}
      </FormDialog>
    </Allowed>
  );
}

function Fields({ form, entries, close }: Props & { close: () => void }) {
  const [outcome, submit, isPending] = useActionState(correctCleaningAction, NOTHING_YET);
  const field = { form: `correct-${entries.id}`, outcome };
  useEffect(() => {
    if (outcome.kind === 'done') close();
  }, [outcome, close]);
  return (
    <form action={submit} className={styles.form}>
      <input type="hidden" name="tag" value={form.tag} />
      <input type="hidden" name="id" value={entries.id} />
      <input type="hidden" name="revision" value={entries.revision} />
      <OutcomeField
        {...field}
        name="at"
        label="Back in service"
        hint={`local time, ${form.timeZone}`}
        type="datetime-local"
        required
        defaultValue={entries.at}
      />
      <OutcomeField {...field} name="method" label="Method" maxLength={120} defaultValue={entries.method} />
      <OutcomeField
        {...field}
        name="cost"
        label="Cost"
        hint={form.currency}
        inputMode="decimal"
        defaultValue={entries.cost}
      />
      <OutcomeField {...field} name="note" label="Note" maxLength={500} isWide defaultValue={entries.note} />
      <OutcomeField {...field} name="reason" label="Why it is corrected" maxLength={500} required isWide />
      <div className={styles.end}>
        <Button type="submit" weight="primary" disabled={isPending}>
          {isPending ? 'Working out …' : 'Correct'}
        </Button>
        <Button onClick={close}>Cancel</Button>
      </div>
      <OutcomeNotice outcome={outcome} />
    </form>
  );
}
