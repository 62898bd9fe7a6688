import { closeSession } from '@/lib/auth/sessions';
import type { Context } from '../context';

/** Ends the session of this browser on the server too. @returns what to send as Set-Cookie */
export function signOut({ store }: Context, headers: Headers): Promise<string[]> {
  return closeSession(store, headers);
}
