'use client';

import { type ReactNode, useActionState, useEffect } from 'react';
import { Button } from '@/app/ui/button/button';
import styles from '@/app/units/[tag]/entry-form.module.css';
import { FormDialog } from '@/app/units/[tag]/form-dialog';
import { type FormOutcome, NOTHING_YET } from '@/app/units/[tag]/form-outcome';
import { OutcomeNotice } from '@/app/units/[tag]/outcome-field';
import type { WorkRow } from '@/lib/report/work-list/work-row';

type Action = (before: FormOutcome, form: FormData) => Promise<FormOutcome>;

type Props = {
  row: WorkRow;
  what: string;
  label: string;
  title: string;
  /** Name of the form, so that ids differ between forms of a page. */
  form: string;
  action: Action;
  children: (field: { form: string; outcome: FormOutcome }) => ReactNode;
};

/** A button that opens a form about a piece of work; it closes once that is done. */
export function WorkForm({ what, label, title, ...props }: Props) {
  return (
    <FormDialog label={label} what={what} title={title}>
      {(close) => <Fields {...props} label={label} close={close} />}
    </FormDialog>
  );
}

function Fields({
  row,
  form,
  action,
  label,
  children,
  close,
}: Omit<Props, 'what' | 'title'> & { close: () => void }) {
  const [outcome, submit, isPending] = useActionState(action, NOTHING_YET);
  const field = { form: `${form}-${row.id}`, outcome };
  const isDone = outcome.kind === 'done';
  useEffect(() => {
    if (isDone) close();
  }, [isDone, close]);
  return (
    <form action={submit} className={styles.form}>
      <input type="hidden" name="tag" value={row.tag} />
      <input type="hidden" name="id" value={row.id} />
      <input type="hidden" name="revision" value={row.revision} />
      {children(field)}
      <div className={styles.end}>
        <Button type="submit" weight="primary" disabled={isPending}>
          {isPending ? 'Working …' : label}
        </Button>
        <Button onClick={close}>Cancel</Button>
      </div>
      <OutcomeNotice outcome={outcome} />
    </form>
  );
}
