'use client';

import { useActionState } from 'react';
import { useRight } from '@/app/access/rights';
import { Button } from '@/app/ui/button/button';
import { described, Field } from '@/app/ui/form/field';
import { Notice } from '@/app/ui/notice/notice';
import type { ReferenceEntries } from '@/lib/report/reference/reference-entries';
import { type AcceptOutcome, acceptReferenceAction } from './accept-reference-action';
import styles from './reference.module.css';

type Props = { tag: string; entries: ReferenceEntries; after: number };

const NOTHING_YET: AcceptOutcome = { kind: 'none' };

/** Accepts what was worked out above, and says why. */
export function AcceptForm({ tag, entries, after }: Props) {
  const [outcome, submit, isPending] = useActionState(acceptReferenceAction, NOTHING_YET);
  const mayAccept = useRight('describe');
  const kept = outcome.kind === 'refused' ? outcome.fields : {};
  const errorOf = (field: string) => (outcome.kind === 'refused' ? (outcome.errors[field] ?? null) : null);
  if (outcome.kind === 'done') return <Notice kind="done">{outcome.message}</Notice>;
  if (!mayAccept) return <p className="screen-only">An engineer accepts a clean reference.</p>;
  return (
    <form action={submit} className={`${styles.accept} screen-only`}>
      <input type="hidden" name="tag" value={tag} />
      <input type="hidden" name="after" value={after} />
      {Object.entries(entries).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value ?? ''} />
      ))}
      <Field
        id="reason"
        label="Why"
        hint="Example: acid wash on 3 May, inspected clean"
        error={errorOf('reason')}
      >
        <input
          {...described('reason', errorOf('reason'), 'hint')}
          name="reason"
          maxLength={500}
          required
          defaultValue={kept.reason}
        />
      </Field>
      <Button type="submit" weight="primary" disabled={isPending}>
        {isPending ? 'Accepting …' : 'Accept this reference'}
      </Button>
      {outcome.kind === 'refused' ? (
        <Notice kind="problem" title="Not accepted">
          {outcome.message}
        </Notice>
      ) : null}
    </form>
  );
}
