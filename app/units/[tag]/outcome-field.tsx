'use client';

import type { InputHTMLAttributes, ReactNode } from 'react';
import { described, Field } from '@/app/ui/form/field';
import { Notice } from '@/app/ui/notice/notice';
import styles from './entry-form.module.css';
import type { FormOutcome } from './form-outcome';

type Props = Omit<InputHTMLAttributes<HTMLInputElement>, 'form' | 'id' | 'name'> & {
  /** Name of the form, so that ids differ between forms of a page. */
  form: string;
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  isWide?: boolean;
  outcome: FormOutcome;
};

/** One field of a form that a server action answers: what was typed is kept, and what is wrong with it stands beside it. */
export function OutcomeField({ form, name, label, hint, isWide, outcome, defaultValue, ...input }: Props) {
  const id = `${form}-${name}`;
  const isRefused = outcome.kind === 'refused';
  const error = isRefused ? (outcome.errors[name] ?? null) : null;
  return (
    <Field id={id} label={label} hint={hint} error={error} isWide={isWide}>
      <input
        {...described(id, error, hint)}
        {...input}
        name={name}
        defaultValue={isRefused ? outcome.fields[name] : defaultValue}
      />
    </Field>
  );
}

/** What became of the form as a whole; what is wrong is said here too, for a field can be out of sight. */
export function OutcomeNotice({ outcome }: { outcome: FormOutcome }) {
  return (
    <div className={styles.outcome}>
      {outcome.kind === 'done' ? <Notice kind="done">{outcome.message}</Notice> : null}
      {outcome.kind === 'refused' ? (
        <Notice kind="problem" title={outcome.message}>
          {Object.values(outcome.errors).join('; ')}
        </Notice>
      ) : null}
    </div>
  );
}
