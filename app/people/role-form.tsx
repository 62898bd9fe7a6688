'use client';

import { useState } from 'react';
import { Button } from '@/app/ui/button/button';
import type { PersonRow } from '@/lib/report/people/people-view';
import { ROLE_CHOICES } from '@/lib/report/people/role-words';
import styles from './people.module.css';

/** Id of the words that say why the only administrator stays one. */
export const ONLY_ADMINISTRATOR = 'only-administrator';

type Props = { person: PersonRow; send: (form: FormData) => void; isSending: boolean };

/** The role of an account; another one is given by a button of its own, never by moving through the list. */
export function RoleForm({ person, send, isSending }: Props) {
  const [role, setRole] = useState(person.role);
  return (
    <form action={send} className={styles.role}>
      <input type="hidden" name="id" value={person.id} />
      <input type="hidden" name="revision" value={person.revision} />
      <input type="hidden" name="what" value="role" />
      <select
        name="role"
        aria-label={`Role of ${person.name}`}
        value={role}
        disabled={person.isOnlyAdministrator}
        aria-describedby={person.isOnlyAdministrator ? ONLY_ADMINISTRATOR : undefined}
        onChange={(event) => setRole(event.target.value)}
      >
        {ROLE_CHOICES.map(({ value }) => (
          <option key={value}>{value}</option>
        ))}
      </select>
      {role === person.role ? null : (
        <Button type="submit" weight="quiet" disabled={isSending}>
          Give role<span className="unseen"> to {person.name}</span>
        </Button>
      )}
    </form>
  );
}
