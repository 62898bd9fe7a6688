'use client';

import { useActionState, useEffect } from 'react';
import { Allowed } from '@/app/access/rights';
import { Button } from '@/app/ui/button/button';
import type { Withdrawable } from '@/lib/report/unit/withdrawal-input';
import { withdrawCleaningAction } from './cleaning-actions';
import styles from './entry-form.module.css';
import { FormDialog } from './form-dialog';
import { NOTHING_YET } from './form-outcome';
import { withdrawJudgementAction } from './judging-actions';
import { OutcomeField, OutcomeNotice } from './outcome-field';

type Target = {
  tag: string;
  kind: Withdrawable;
  id: number;
  /** Of a cleaning: the state of it that is shown. */
  revision?: number;
};

const TITLES: Record<Withdrawable, string> = {
  verdict: 'Withdraw a verdict',
  answer: 'Withdraw an answer',
  cleaning: 'Withdraw a recorded cleaning',
};

/** Takes back what a person stated, and says why. */
export function WithdrawForm({ what, ...target }: Target & { what: string }) {
  return (
    <Allowed right={target.kind === 'cleaning' ? 'clean' : 'judge'}>
      <FormDialog label="Withdraw" what={what} title={TITLES[target.kind]}>
        {(close) => <Fields {...target} close={close} />}
      </FormDialog>
    </Allowed>
  );
}

function Fields({ tag, kind, id, revision, close }: Target & { close: () => void }) {
  const [outcome, submit, isPending] = useActionState(
    kind === 'cleaning' ? withdrawCleaningAction : withdrawJudgementAction,
    NOTHING_YET,
  );
  const field = { form: `withdraw-${kind}-${id}`, outcome };
  useEffect(() => {
    if (outcome.kind === 'done') close();
  }, [outcome, close]);
  return (
    <form action={submit} className={styles.form}>
      <input type="hidden" name="tag" value={tag} />
      <input type="hidden" name="kind" value={kind} />
      <input type="hidden" name="id" value={id} />
      <input type="hidden" name="revision" value={revision ?? ''} />
      <OutcomeField {...field} name="note" label="Why it is withdrawn" maxLength={500} required isWide />
      <div className={styles.end}>
        <Button type="submit" weight="primary" disabled={isPending}>
          {isPending ? 'Working out …' : 'Withdraw'}
        </Button>
        <Button onClick={close}>Cancel</Button>
      </div>
      <OutcomeNotice outcome={outcome} />
    </form>
  );
}
