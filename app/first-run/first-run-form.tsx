'use client';

import styles from '@/app/access/account-form.module.css';
import { AnswerNotice } from '@/app/access/answer-notice';
import { PasswordField } from '@/app/access/password-field';
import { PASSWORD_HINT } from '@/app/access/password-hint';
import { TextField } from '@/app/access/text-field';
import { useAccountForm } from '@/app/access/use-account-form';
import { Button } from '@/app/ui/button/button';
import { startFirstAction } from './start-first-action';

const FIELDS = ['name', 'email', 'password', 'code'];

export function FirstRunForm({ needsCode }: { needsCode: boolean }) {
  const { answer, send, isSending, errorOf, typed } = useAccountForm(startFirstAction);
  const shown = needsCode ? FIELDS : FIELDS.filter((field) => field !== 'code');
  return (
    <form action={send} className={styles.form}>
      <AnswerNotice answer={answer} shownAtFields={shown} />
      {needsCode ? (
        <TextField
          id="code"
          label="Code of the server"
          hint="“cleanby serve” printed it when it started"
          autoComplete="off"
          defaultValue={typed('code')}
          error={errorOf('code')}
          required
        />
      ) : null}
      <TextField
        id="name"
        label="Your name"
        hint="as records of changes show it"
        autoComplete="name"
        defaultValue={typed('name')}
        error={errorOf('name')}
        required
      />
      <TextField
        id="email"
        label="E-mail"
        hint="you sign in with it; no mail is sent"
        type="email"
        autoComplete="username"
        defaultValue={typed('email')}
        error={errorOf('email')}
        required
      />
      <PasswordField
        id="password"
        label="Password"
        hint={PASSWORD_HINT}
        kind="new-password"
        error={errorOf('password')}
      />
      <div className={styles.actions}>
        <Button type="submit" weight="primary" disabled={isSending}>
          Make the account
        </Button>
      </div>
    </form>
  );
}
