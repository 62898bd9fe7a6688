import type { Store } from '@/lib/store/open-store';
import { isRole } from './rights';
import { signInLibrary } from './sign-in-library';
import { personVisitor, type Visitor } from './visitor';

/** The person whose session cookie is among the headers; null where there is none that holds. */
export async function personOfSession(store: Store, headers: Headers): Promise<Visitor | null> {
  if (!headers.has('cookie')) return null;
  const { api } = await signInLibrary(store);
  const session = await api.getSession({ headers });
  if (session === null) return null;
  const { id, name, role } = session.user;
  return isRole(role) ? personVisitor({ id, name, role }) : null;
}
