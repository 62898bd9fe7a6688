'use client';

import { useRouter } from 'next/navigation';
import type { FormOutcome } from '@/app/units/[tag]/form-outcome';
import { OutcomeField } from '@/app/units/[tag]/outcome-field';
import type { WorkRow } from '@/lib/report/work-list/work-row';
import { FilesField } from './files-field';
import { filesIn, sendFiles } from './send-files';
import { finishWorkAction } from './work-actions';
import { WorkForm } from './work-form';

/** Marks a cleaning done: it is recorded for the unit, with what was seen. */
export function DoneForm({ row, what }: { row: WorkRow; what: string }) {
  const router = useRouter();
  const finish = async (_before: FormOutcome, form: FormData): Promise<FormOutcome> => {
    const files = filesIn(form);
    form.delete('files');
    const { outcome, cleaning } = await finishWorkAction(form);
    if (cleaning === null || files.length === 0) return outcome;
    const refused = await sendFiles(files, cleaning);
    router.refresh();
    if (refused.length === 0) return outcome;
    const message = 'The cleaning is recorded; not every file was kept. Add them in the list of work done';
    return { kind: 'refused', message, errors: { files: refused.join('; ') }, fields: {} };
  };
  return (
    <WorkForm
      row={row}
      what={what}
      label="Mark done"
      title="Mark a cleaning done"
      form="done"
      action={finish}
    >
      {(field) => (
        <>
          <OutcomeField
            {...field}
            name="at"
            label="Back in service"
            hint={`local time, ${row.timeZone}`}
            type="datetime-local"
            required
            defaultValue={row.entries.at}
          />
          <OutcomeField
            {...field}
            name="duration"
            label="Hours out of service"
            inputMode="decimal"
            defaultValue={row.entries.hours}
          />
          <OutcomeField
            {...field}
            name="method"
            label="Method"
            maxLength={120}
            defaultValue={row.entries.method}
          />
          <OutcomeField
            {...field}
            name="cost"
            label="Cost"
            hint={`${row.entries.currency}, without downtime`}
            inputMode="decimal"
            defaultValue={row.entries.cost}
          />
          <OutcomeField {...field} name="note" label="Note" maxLength={500} isWide />
          <FilesField form={field.form} />
        </>
      )}
    </WorkForm>
  );
}
