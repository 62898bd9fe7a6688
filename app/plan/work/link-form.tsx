'use client';

import type { WorkRow } from '@/lib/report/work-list/work-row';
import { linkWorkAction } from './work-actions';
import { WorkForm } from './work-form';

/** Says that a recorded cleaning was this piece of work. */
export function LinkForm({ row, cleaning, what }: { row: WorkRow; cleaning: number; what: string }) {
  return (
    <WorkForm
      row={row}
      what={`${row.tag}, ${what}`}
      label="This was it"
      title="A recorded cleaning was this work"
      form={`link-${cleaning}`}
      action={linkWorkAction}
    >
      {() => <input type="hidden" name="cleaning" value={cleaning} />}
    </WorkForm>
  );
}
