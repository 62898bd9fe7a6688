'use client';

import { useRouter } from 'next/navigation';
import { useActionState, useEffect } from 'react';
import { Allowed } from '@/app/access/rights';
import { Button } from '@/app/ui/button/button';
import styles from '@/app/units/[tag]/entry-form.module.css';
import { FormDialog } from '@/app/units/[tag]/form-dialog';
import { type FormOutcome, NOTHING_YET } from '@/app/units/[tag]/form-outcome';
import { OutcomeNotice } from '@/app/units/[tag]/outcome-field';
import { FilesField } from './files-field';
import { filesIn, sendFiles } from './send-files';

/** Adds photographs or reports to a recorded cleaning. */
export function AddFiles({ cleaning, what }: { cleaning: number; what: string }) {
  return (
    <Allowed right="clean">
      <span className="screen-only">
        <FormDialog label="Add files" what={what} title="Keep files with a cleaning">
          {(close) => <Fields cleaning={cleaning} close={close} />}
        </FormDialog>
      </span>
    </Allowed>
  );
}

function Fields({ cleaning, close }: { cleaning: number; close: () => void }) {
  const router = useRouter();
  const keep = async (_before: FormOutcome, form: FormData): Promise<FormOutcome> => {
    const refused = await sendFiles(filesIn(form), cleaning);
    router.refresh();
    if (refused.length === 0) return { kind: 'done', message: 'Kept.' };
    const errors = { files: refused.join('; ') };
    return { kind: 'refused', message: 'Not every file was kept', errors, fields: {} };
  };
  const [outcome, submit, isPending] = useActionState(keep, NOTHING_YET);
  const isDone = outcome.kind === 'done';
  useEffect(() => {
    if (isDone) close();
  }, [isDone, close]);
  return (
    <form action={submit} className={styles.form}>
      <FilesField form={`files-${cleaning}`} isRequired />
      <div className={styles.end}>
        <Button type="submit" weight="primary" disabled={isPending}>
          {isPending ? 'Sending …' : 'Keep'}
        </Button>
        <Button onClick={close}>Cancel</Button>
      </div>
      <OutcomeNotice outcome={outcome} />
    </form>
  );
}
