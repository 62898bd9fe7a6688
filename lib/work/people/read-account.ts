import { IDLE_LIMIT_MS } from '@/lib/auth/session-limits';
import { currentSession } from '@/lib/auth/sessions';
import { passwordHashOf, type StoredPerson } from '@/lib/store/entities/people';
import { listSessions, type StoredSession } from '@/lib/store/entities/sessions';
import type { Context } from '../context';
import { ownAccount } from './own-account';

export type AccountRecords = {
  person: StoredPerson;
  hasPassword: boolean;
  sessions: StoredSession[];
  /** Session of the browser that asks. */
  thisSession: string | null;
};

/** The account of whoever is signed in, and where else that one is. */
export async function readAccount(context: Context, headers: Headers): Promise<AccountRecords> {
  const { store } = context;
  const person = await ownAccount(context);
  const [hash, sessions, current] = await Promise.all([
    passwordHashOf(store.entities, person.id),
    listSessions(store.entities, person.id, Date.now() - IDLE_LIMIT_MS),
    currentSession(store, headers),
  ]);
  return { person, hasPassword: hash !== null, sessions, thisSession: current?.session.id ?? null };
}
