'use client';

import { useEffect, useRef } from 'react';
import styles from '@/app/access/account-form.module.css';
import { AnswerNotice } from '@/app/access/answer-notice';
import { PasswordField } from '@/app/access/password-field';
import { TextField } from '@/app/access/text-field';
import { useAccountForm } from '@/app/access/use-account-form';
import { Button } from '@/app/ui/button/button';
import { signInAction } from './sign-in-action';

/** Address and password: nothing to remember beyond them, nothing to solve, and a manager can fill both in. */
export function SignInForm({ to }: { to: string }) {
  const { answer, send, isSending, typed } = useAccountForm(signInAction);
  const form = useRef<HTMLFormElement>(null);
  // The button that was pressed is disabled meanwhile and loses the focus: it goes to what is typed anew.
  useEffect(() => {
    if (answer.kind !== 'refused') return;
    form.current?.querySelector<HTMLInputElement>('input[name="password"]')?.focus();
  }, [answer]);
  return (
    <form ref={form} action={send} className={styles.form}>
      <input type="hidden" name="to" value={to} />
      <AnswerNotice answer={answer} shownAtFields={[]} />
      <TextField
        id="email"
        label="E-mail"
        type="email"
        autoComplete="username"
        defaultValue={typed('email')}
        error={null}
        required
      />
      <PasswordField id="password" label="Password" kind="current-password" error={null} />
      <div className={styles.actions}>
        <Button type="submit" weight="primary" disabled={isSending}>
          Sign in
        </Button>
      </div>
    </form>
  );
}
