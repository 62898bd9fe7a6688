'use client';

import { type ReactNode, useActionState } from 'react';
import type { MarkRequest } from '@/lib/contract/review';
import { type MarkOutcome, markLineAction } from './mark-line-action';
import styles from './marks.module.css';

const NOTHING_YET: MarkOutcome = { kind: 'none' };

type Props = Pick<MarkRequest, 'tag' | 'line' | 'kind'> & { children: ReactNode };

/** One way to mark a line; its own field and button are the children. */
export function MarkForm({ tag, line, kind, children }: Props) {
  const [outcome, submit, isPending] = useActionState(markLineAction, NOTHING_YET);
  return (
    <form action={submit} className={styles.form} data-mark={kind} aria-busy={isPending}>
      <input type="hidden" name="tag" value={tag} />
      <input type="hidden" name="line" value={line} />
      <input type="hidden" name="kind" value={kind} />
      {children}
      {outcome.kind === 'refused' ? (
        <p role="alert" className={styles.refused}>
          {outcome.message}
        </p>
      ) : null}
    </form>
  );
}
