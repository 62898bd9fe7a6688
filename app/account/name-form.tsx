'use client';

import styles from '@/app/access/account-form.module.css';
import { AnswerNotice } from '@/app/access/answer-notice';
import { TextField } from '@/app/access/text-field';
import { useAccountForm } from '@/app/access/use-account-form';
import { Button } from '@/app/ui/button/button';
import { renameSelfAction } from './account-actions';

export function NameForm({ name }: { name: string }) {
  const { answer, send, isSending, errorOf, typed } = useAccountForm(renameSelfAction);
  return (
    <form action={send} className={styles.form}>
      <AnswerNotice answer={answer} shownAtFields={['name']} />
      <TextField
        id="name"
        label="Your name"
        hint="as records of changes show it from now on"
        autoComplete="name"
        defaultValue={typed('name', name)}
        key={name}
        error={errorOf('name')}
        required
      />
      <div className={styles.actions}>
        <Button type="submit" disabled={isSending}>
          Save the name
        </Button>
      </div>
    </form>
  );
}
