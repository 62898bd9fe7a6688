import { deleteSessions, noteSessionUse } from '@/lib/store/entities/sessions';
import type { Store } from '@/lib/store/open-store';
import { callerAddress } from './caller';
import { isRole } from './rights';
import { IDLE_LIMIT_MS, LAST_USE_STEP_MS } from './session-limits';
import { signInLibrary } from './sign-in-library';
import { personVisitor, type Visitor } from './visitor';

/** The person whose session cookie is among the headers; null where there is none that holds. */
export async function personOfSession(store: Store, headers: Headers): Promise<Visitor | null> {
  const session = await currentSession(store, headers);
  if (session === null) return null;
  const { id, name, role } = session.user;
  return typeof role === 'string' && isRole(role) ? personVisitor({ id, name, role }) : null;
}

/**
 * The session whose cookie is among the headers, asked of the database at every request: a role that was changed or an
 * account that was disabled counts at once.
 */
export async function currentSession(store: Store, headers: Headers) {
  if (!headers.has('cookie')) return null;
  const { api } = await signInLibrary(store, headers);
  const found = await api.getSession({ headers });
  if (found === null || found.user.disabledAt) return null;
  // The clock of the machine: one that stands still, as for pictures, must not keep sessions alive.
  const unused = Date.now() - found.session.updatedAt.getTime();
  if (unused > IDLE_LIMIT_MS) {
    await deleteSessions(store.entities, found.user.id, { id: found.session.id });
    return null;
  }
  if (unused > LAST_USE_STEP_MS) noteUse(store, found.session.id);
  return found;
}

const beingNoted = new Set<string>();

/** Writes down the use of a session; nobody waits for it, for an import may be writing for minutes. */
function noteUse({ entities }: Store, id: string): void {
  if (beingNoted.has(id)) return;
  beingNoted.add(id);
  noteSessionUse(entities, id, Date.now())
    // A use that is not written down shortens the session, no more.
    .catch(() => {})
    .finally(() => beingNoted.delete(id));
}

/**
 * Begins a session for a person who has been found to be who they say, and ends the one this browser had.
 *
 * @returns what to send as Set-Cookie
 */
export async function openSession(store: Store, userId: string, headers: Headers): Promise<string[]> {
  await closeSession(store, headers);
  const { api } = await signInLibrary(store, headers);
  const body = { userId, address: callerAddress(headers) };
  const opened = await api.openSession({ body, headers, returnHeaders: true });
  return opened.headers.getSetCookie();
}

/** Ends the session whose cookie is among the headers, in the database too. @returns what to send as Set-Cookie */
export async function closeSession(store: Store, headers: Headers): Promise<string[]> {
  if (!headers.has('cookie')) return [];
  const { api } = await signInLibrary(store, headers);
  const closed = await api.signOut({ headers, returnHeaders: true });
  return closed.headers.getSetCookie();
}
