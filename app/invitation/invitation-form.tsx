'use client';

import styles from '@/app/access/account-form.module.css';
import { AnswerNotice } from '@/app/access/answer-notice';
import { PasswordField } from '@/app/access/password-field';
import { PASSWORD_HINT } from '@/app/access/password-hint';
import { TextField } from '@/app/access/text-field';
import { useAccountForm } from '@/app/access/use-account-form';
import { Button } from '@/app/ui/button/button';
import { roleWords } from '@/lib/report/people/role-words';
import { acceptInvitationAction, type InvitationAnswer } from './invitation-actions';

type Open = Extract<InvitationAnswer, { kind: 'open' }>;

/** The address is the invitation's; name and password are the invited person's to choose. */
export function InvitationForm({ secret, invitation }: { secret: string; invitation: Open }) {
  const { answer, send, isSending, errorOf, typed } = useAccountForm(acceptInvitationAction);
  const { email, role, from } = invitation;
  return (
    <>
      <p>
        {from} invites you as <strong>{role}</strong>: {roleWords(role)}.
      </p>
      <form action={send} className={styles.form}>
        <input type="hidden" name="secret" value={secret} />
        <AnswerNotice answer={answer} shownAtFields={['name', 'password']} />
        <TextField
          id="email"
          label="E-mail"
          hint="you sign in with it"
          type="email"
          autoComplete="username"
          value={email}
          error={null}
          readOnly
        />
        <TextField
          id="name"
          label="Your name"
          hint="as records of changes show it"
          autoComplete="name"
          defaultValue={typed('name', invitation.name)}
          error={errorOf('name')}
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
            Make my account
          </Button>
        </div>
      </form>
    </>
  );
}
