'use client';

import styles from '@/app/access/account-form.module.css';
import { AnswerNotice } from '@/app/access/answer-notice';
import { PasswordField } from '@/app/access/password-field';
import { PASSWORD_HINT } from '@/app/access/password-hint';
import { useAccountForm } from '@/app/access/use-account-form';
import { Button } from '@/app/ui/button/button';
import { changePasswordAction } from './account-actions';

/** Other browsers are signed out with it; managers learn the new one by the address beside it. */
export function PasswordForm({ email }: { email: string }) {
  const { answer, send, isSending, errorOf } = useAccountForm(changePasswordAction);
  return (
    <form action={send} className={styles.form}>
      <AnswerNotice answer={answer} shownAtFields={['current', 'password']} />
      <input type="hidden" name="username" value={email} autoComplete="username" />
      <PasswordField id="current" label="Password now" kind="current-password" error={errorOf('current')} />
      <PasswordField
        id="password"
        label="New password"
        hint={PASSWORD_HINT}
        kind="new-password"
        error={errorOf('password')}
      />
      <div className={styles.actions}>
        <Button type="submit" disabled={isSending}>
          Change the password
        </Button>
      </div>
    </form>
  );
}
