'use client';

import { useActionState } from 'react';
import { AnswerNotice } from '@/app/access/answer-notice';
import type { FormAnswer } from '@/app/access/form-answer';
import { Button } from '@/app/ui/button/button';
import type { PersonRow } from '@/lib/report/people/people-view';
import styles from './people.module.css';
import { changePersonAction } from './people-actions';
import { ONLY_ADMINISTRATOR, RoleForm } from './role-form';
import { RowCards } from './row-cards';

const COLUMNS = [
  { key: 'name', head: 'Name' },
  { key: 'role', head: 'Role' },
  { key: 'lastSeen', head: 'Last seen' },
  { key: 'state', head: 'State' },
  { key: 'actions', head: <span className="unseen">Actions</span> },
];

type Send = (form: FormData) => void;

/** Everybody with an account. What became of a change stands above the list, so that it is read whichever row it was. */
export function PeopleTable({ people }: { people: PersonRow[] }) {
  const [answer, send, isSending] = useActionState<FormAnswer, FormData>(changePersonAction, {
    kind: 'none',
  });
  const rows = people.map((person) => ({
    key: person.id,
    cells: {
      name: <Name person={person} />,
      role: <RoleForm key={person.revision} person={person} send={send} isSending={isSending} />,
      lastSeen: person.lastSeen,
      state: (
        <span className={person.isDisabled || person.isLocked ? styles.shut : undefined}>{person.state}</span>
      ),
      actions: <Actions person={person} send={send} isSending={isSending} />,
    },
  }));
  return (
    <div className={styles.people}>
      <AnswerNotice answer={answer} shownAtFields={[]} />
      <RowCards caption="People with an account" columns={COLUMNS} rows={rows} rowHead="name" />
    </div>
  );
}

function Name({ person: { name, email, isSelf, isOnlyAdministrator } }: { person: PersonRow }) {
  return (
    <>
      {name}
      {isSelf ? ' (you)' : ''}
      <span className={styles.email}>{email}</span>
      {isOnlyAdministrator ? (
        <span id={ONLY_ADMINISTRATOR} className={styles.reason}>
          The only administrator: make somebody else one before changing this role or access.
        </span>
      ) : null}
    </>
  );
}

function Actions({ person, send, isSending }: { person: PersonRow; send: Send; isSending: boolean }) {
  const { isLocked, isDisabled, isOnlyAdministrator } = person;
  const choices = [
    ...(isLocked ? [{ what: 'unlock', label: 'Unlock' }] : []),
    isDisabled ? { what: 'enable', label: 'Enable' } : { what: 'disable', label: 'Disable' },
    { what: 'end-sessions', label: 'End sessions' },
  ];
  return (
    <form action={send} className={styles.actions}>
      <input type="hidden" name="id" value={person.id} />
      <input type="hidden" name="revision" value={person.revision} />
      {choices.map(({ what, label }) => (
        <Button
          key={what}
          type="submit"
          name="what"
          value={what}
          weight="quiet"
          disabled={isSending || (isOnlyAdministrator && what === 'disable')}
          aria-describedby={isOnlyAdministrator && what === 'disable' ? ONLY_ADMINISTRATOR : undefined}
        >
          {label}
          <span className="unseen"> {person.name}</span>
        </Button>
      ))}
    </form>
  );
}
