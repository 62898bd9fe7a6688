'use client';

import { useEffect, useRef } from 'react';
import { described, Field } from '@/app/ui/form/field';
import type { FormOutcome } from './form-outcome';

const KEY = 'cleanby.name';

/** Who says so: the name this browser gave last is filled in, for what people state is kept under their name. */
export function NameField({ form, outcome }: { form: string; outcome: FormOutcome }) {
  const input = useRef<HTMLInputElement>(null);
  const id = `${form}-by`;
  const isRefused = outcome.kind === 'refused';
  const error = isRefused ? (outcome.errors.by ?? null) : null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a form that was sent is emptied, and its name filled in again
  useEffect(() => {
    if (input.current !== null && input.current.value === '') input.current.value = recalledName();
  }, [outcome]);
  return (
    <Field id={id} label="Your name" error={error}>
      <input
        {...described(id, error)}
        ref={input}
        name="by"
        maxLength={80}
        required
        autoComplete="name"
        defaultValue={isRefused ? outcome.fields.by : ''}
        onBlur={(event) => rememberName(event.target.value.trim())}
      />
    </Field>
  );
}

function recalledName(): string {
  try {
    return localStorage.getItem(KEY) ?? '';
  } catch {
    return '';
  }
}

function rememberName(name: string): void {
  try {
    if (name !== '') localStorage.setItem(KEY, name);
  } catch {
    // A browser that keeps nothing only costs the person typing the name again.
  }
}
