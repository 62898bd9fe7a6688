import type { Store } from '@/lib/store/open-store';
import { personOfSession } from './sessions';
import { visitorOfToken } from './tokens';
import type { Visitor } from './visitor';

/** Who sends these headers: a program by its token, a person by the session cookie; null where nobody says. */
export async function identify(store: Store, headers: Headers, now: number): Promise<Visitor | null> {
  const authorization = headers.get('authorization');
  // A program that sends a wrong token is told so, even from a browser that is signed in.
  if (authorization !== null) return visitorOfToken(store, authorization, now);
  return personOfSession(store, headers);
}
