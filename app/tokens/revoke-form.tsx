'use client';

import { useActionState } from 'react';
import { Button } from '@/app/ui/button/button';
import { NOTHING_YET } from '@/app/units/[tag]/form-outcome';
import { withdrawTokenAction } from './token-actions';
import styles from './tokens.module.css';

/** Revokes a token, after asking once: the program behind it stops at its next request. */
export function RevokeForm({ id, name }: { id: number; name: string }) {
  const [outcome, submit, isPending] = useActionState(withdrawTokenAction, NOTHING_YET);
  return (
    <details className={styles.revoke}>
      <summary>
        Revoke<span className="unseen"> {name}</span>
      </summary>
      <form action={submit}>
        <input type="hidden" name="id" value={id} />
        <p>{name} is refused from its next request on. That cannot be taken back.</p>
        <Button type="submit" disabled={isPending}>
          {isPending ? 'Revoking …' : 'Revoke it'}
        </Button>
        {outcome.kind === 'refused' ? <p role="alert">{outcome.message}</p> : null}
      </form>
    </details>
  );
}
