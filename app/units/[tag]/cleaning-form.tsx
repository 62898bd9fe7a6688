'use client';

import { useActionState } from 'react';
import { Button } from '@/app/ui/button/button';
import { Notice } from '@/app/ui/notice/notice';
import type { CleaningForm as Form } from '@/lib/report/unit-view';
import styles from './cleaning-form.module.css';
import { type CleaningOutcome, recordCleaningAction } from './record-cleaning-action';

const NOTHING_YET: CleaningOutcome = { kind: 'none' };

/** When, how, at what cost: the time is the site's own. */
export function CleaningForm({ form }: { form: Form }) {
  const [outcome, submit, isPending] = useActionState(recordCleaningAction, NOTHING_YET);
  const kept = outcome.kind === 'refused' ? outcome.fields : {};
  return (
    <form action={submit} className={`${styles.form} screen-only`}>
      <input type="hidden" name="tag" value={form.tag} />
      <label>
        Back in service <span className={styles.hint}>local time, {form.timeZone}</span>
        <input type="datetime-local" name="at" required defaultValue={kept.at} />
      </label>
      <label>
        Method
        <input name="method" maxLength={120} defaultValue={kept.method ?? form.method} />
      </label>
      <label>
        Cost <span className={styles.hint}>{form.currency}</span>
        <input name="cost" inputMode="decimal" defaultValue={kept.cost ?? form.cost} />
      </label>
      <label className={styles.wide}>
        Note
        <input name="note" maxLength={500} defaultValue={kept.note} />
      </label>
      <Button type="submit" weight="primary" disabled={isPending}>
        {isPending ? 'Recording …' : 'Record cleaning'}
      </Button>
      <div className={styles.outcome}>
        {outcome.kind === 'done' ? <Notice kind="done">{outcome.message}</Notice> : null}
        {outcome.kind === 'refused' ? (
          <Notice kind="problem" title="Not recorded">
            {outcome.message}
          </Notice>
        ) : null}
      </div>
    </form>
  );
}
