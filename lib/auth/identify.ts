import type { Store } from '@/lib/store/open-store';
import { personOfSession } from './sessions';
import { isToken, visitorOfToken } from './tokens';
import type { Visitor } from './visitor';

/**
 * Who sends these headers to a route: a program by its token, a person by the session cookie; null where nobody says. Pages and
 * actions know people only: `personOfSession`.
 */
export async function identify(store: Store, headers: Headers, now: number): Promise<Visitor | null> {
  const authorization = headers.get('authorization');
  // A program that sends a wrong token is told so, even from a browser that is signed in.
  // Other headers of this name are not for us: a server in front may ask for a name and a password of its own.
  if (isToken(authorization)) return visitorOfToken(store, authorization, now);
  return personOfSession(store, headers);
}
