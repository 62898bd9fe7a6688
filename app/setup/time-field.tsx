'use client';

import type { ReactNode } from 'react';
import { described, Field } from '@/app/ui/form/field';
import { useField } from './setup-context';

type Props = { path: string; faultPath?: string; label: string; hint?: ReactNode };

/** A local day and time of the unit's site. */
export function TimeField({ path, faultPath, label, hint }: Props) {
  const { id, value, set, onBlur, error } = useField(path, faultPath);
  return (
    <Field id={id} label={label} hint={hint} error={error}>
      <input
        {...described(id, error, hint)}
        type="datetime-local"
        value={value as string}
        onChange={(event) => set(event.target.value)}
        onBlur={onBlur}
      />
    </Field>
  );
}
