'use client';

import { useActionState } from 'react';
import { AnswerNotice } from '@/app/access/answer-notice';
import { TextField } from '@/app/access/text-field';
import { CopyButton } from '@/app/import/copy-button';
import { Button } from '@/app/ui/button/button';
import { Field } from '@/app/ui/form/field';
import { Notice } from '@/app/ui/notice/notice';
import { ROLE_CHOICES } from '@/lib/report/people/role-words';
import styles from './people.module.css';
import { type InviteAnswer, inviteAction } from './people-actions';

/** Whom to invite and as what; the link is shown once, for only its hash is kept. */
export function InviteForm() {
  const [answer, send, isSending] = useActionState<InviteAnswer, FormData>(inviteAction, { kind: 'none' });
  const refused = answer.kind === 'refused' ? answer : null;
  const field = (id: string) => ({
    id,
    defaultValue: refused?.fields[id] ?? '',
    error: refused?.errors[id] ?? null,
  });
  return (
    <>
      {answer.kind === 'invited' ? <Link answer={answer} /> : null}
      {refused === null ? null : <AnswerNotice answer={refused} shownAtFields={['email', 'name', 'role']} />}
      <form action={send} className={styles.invite}>
        <TextField {...field('email')} label="E-mail" type="email" autoComplete="off" required />
        <TextField {...field('name')} label="Name" autoComplete="off" required />
        <Field id="role" label="Role" error={refused?.errors.role ?? null}>
          <select id="role" name="role" defaultValue={refused?.fields.role ?? 'viewer'}>
            {ROLE_CHOICES.map(({ value }) => (
              <option key={value}>{value}</option>
            ))}
          </select>
        </Field>
        <Button type="submit" weight="primary" disabled={isSending}>
          Invite
        </Button>
      </form>
    </>
  );
}

function Link({ answer: { email, link } }: { answer: Extract<InviteAnswer, { kind: 'invited' }> }) {
  return (
    <Notice kind="done" title={`Invitation for ${email}`}>
      <p>Send this link to that person only; it is not shown again.</p>
      <p className={styles.link}>
        <code>{link}</code>
        <CopyButton text={link} label="Copy the link" />
      </p>
    </Notice>
  );
}
