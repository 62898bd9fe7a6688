'use client';

import { OutcomeField } from '@/app/units/[tag]/outcome-field';
import type { WorkRow } from '@/lib/report/work-list/work-row';
import { moveWorkAction } from './work-actions';
import { WorkForm } from './work-form';

/** Moves a cleaning to another time; it takes as long as before. */
export function MoveForm({ row, what }: { row: WorkRow; what: string }) {
  return (
    <WorkForm row={row} what={what} label="Move" title="Move a cleaning" form="move" action={moveWorkAction}>
      {(field) => (
        <>
          <OutcomeField
            {...field}
            name="from"
            label="Out of service from"
            hint={`local time, ${row.timeZone}; it takes as long as before`}
            type="datetime-local"
            required
            defaultValue={row.entries.from}
          />
          <OutcomeField {...field} name="reason" label="Why it is moved" maxLength={500} required isWide />
        </>
      )}
    </WorkForm>
  );
}
