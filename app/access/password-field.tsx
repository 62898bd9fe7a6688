'use client';

import { type ReactNode, useState } from 'react';
import { Button } from '@/app/ui/button/button';
import { described, Field } from '@/app/ui/form/field';
import styles from './password-field.module.css';

type Props = {
  id: string;
  label: string;
  hint?: ReactNode;
  error: string | null;
  /** What password managers go by: the one there is, or one to be chosen. */
  kind: 'current-password' | 'new-password';
};

/** A password that can be pasted, filled in by a manager, and looked at before it is sent. */
export function PasswordField({ id, label, hint, error, kind }: Props) {
  const [isShown, setShown] = useState(false);
  return (
    <Field id={id} label={label} hint={hint} error={error}>
      <span className={styles.line}>
        <input
          {...described(id, error, hint)}
          name={id}
          type={isShown ? 'text' : 'password'}
          autoComplete={kind}
          autoCapitalize="none"
          autoCorrect="off"
          spellCheck={false}
          required
        />
        <Button aria-pressed={isShown} aria-controls={id} onClick={() => setShown(!isShown)}>
          {isShown ? 'Hide' : 'Show'}
        </Button>
      </span>
    </Field>
  );
}
