'use client';

import { OutcomeField } from '@/app/units/[tag]/outcome-field';
import type { WorkRow } from '@/lib/report/work-list/work-row';
import { callOffWorkAction } from './work-actions';
import { WorkForm } from './work-form';

/** Calls a cleaning off; it is kept with the reason. */
export function CallOffForm({ row, what }: { row: WorkRow; what: string }) {
  return (
    <WorkForm
      row={row}
      what={what}
      label="Call off"
      title="Call a cleaning off"
      form="call-off"
      action={callOffWorkAction}
    >
      {(field) => (
        <OutcomeField {...field} name="reason" label="Why it is called off" maxLength={500} required isWide />
      )}
    </WorkForm>
  );
}
