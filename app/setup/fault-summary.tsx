'use client';

import type { Ref } from 'react';
import { Notice } from '@/app/ui/notice/notice';
import type { Fault } from '@/lib/contract/app-error';
import { fieldId } from '@/lib/report/setup/draft-path';
import { fieldInWords } from '@/lib/report/setup/field-words';
import styles from './setup.module.css';

/** Everything in the way of saving, each a link to its field. */
export function FaultSummary({ faults, ref }: { faults: Fault[]; ref: Ref<HTMLDivElement> }) {
  const title =
    faults.length === 1
      ? 'One field keeps this from being saved'
      : `${faults.length} fields keep this from being saved`;
  return (
    <div ref={ref} tabIndex={-1} className={styles.summary}>
      <Notice kind="problem" title={title}>
        <ul className={styles.faults}>
          {faults.map(({ field, message }) => (
            <li key={`${field} ${message}`}>
              <a href={`#${fieldId(field)}`} onClick={(event) => goTo(event, field)}>
                {fieldInWords(field)}
              </a>
              : {message}
            </li>
          ))}
        </ul>
      </Notice>
    </div>
  );
}

/** Puts the cursor into the field, or the nearest one above it that has a control. */
function goTo(event: { preventDefault: () => void }, field: string): void {
  for (let path = field; path !== ''; path = path.replace(/(\[\d+\]|\.?[^.[\]]+)$/, '')) {
    const control = document.getElementById(fieldId(path));
    if (control === null) continue;
    event.preventDefault();
    const closed = control.closest('details');
    if (closed !== null) closed.open = true;
    control.focus();
    control.scrollIntoView({ block: 'center' });
    return;
  }
}
