import { deleteSessions, noteSessionUse, sessionWithPerson } from '@/lib/store/entities/sessions';
import type { Store } from '@/lib/store/open-store';
import { callerAddress } from './caller';
import { KnownCookies } from './known-cookies';
import { isRole } from './rights';
import { IDLE_LIMIT_MS, LAST_USE_STEP_MS } from './session-limits';
import { signInLibrary } from './sign-in-library';
import { personVisitor, type Visitor } from './visitor';

/** The person whose session cookie is among the headers; null where there is none that holds. */
export async function personOfSession(store: Store, headers: Headers): Promise<Visitor | null> {
  const user = (await personOfKnownCookie(store, headers)) ?? (await currentSession(store, headers))?.user;
  if (!user) return null;
  const { id, name, role } = user;
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
  if (found === null || !(await isHolding(store, found.session, found.user))) return null;
  knownCookies.keep(store, headers, found.session.id);
  return found;
}

const knownCookies = new KnownCookies();

/**
 * The same for cookies that this process has found to be signed by us: checking that again costs more than the page. Session
 * and account are asked of the database all the same. Null where the library has to judge.
 */
async function personOfKnownCookie(store: Store, headers: Headers) {
  const id = knownCookies.sessionOf(store, headers);
  const found = id === null ? null : await sessionWithPerson(store.entities, id);
  if (found === null || found.expiresAt.getTime() <= Date.now()) return null;
  return (await isHolding(store, found, found.user)) ? found.user : null;
}

type Judged = { id: string; updatedAt: Date };

/** Whether a session may be used: by an account that is not disabled, and used lately. */
async function isHolding(
  store: Store,
  session: Judged,
  user: { id: string; disabledAt?: Date | null | undefined },
): Promise<boolean> {
  if (user.disabledAt) return false;
  // The clock of the machine: one that stands still, as for pictures, must not keep sessions alive.
  const unused = Date.now() - session.updatedAt.getTime();
  if (unused > IDLE_LIMIT_MS) {
    await deleteSessions(store.entities, user.id, { id: session.id });
    return false;
  }
  if (unused > LAST_USE_STEP_MS) noteUse(store, session.id);
  return true;
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
