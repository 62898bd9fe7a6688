import { closeSession } from '@/lib/auth/sessions';
import type { Context } from '../context';
import { log } from '../log';

/** Ends the session of this browser on the server too. @returns what to send as Set-Cookie */
export async function signOut({ store, actor }: Context, headers: Headers): Promise<string[]> {
  const cookies = await closeSession(store, headers);
  if (actor.kind === 'person') log.info({ event: 'signed-out', account: actor.id }, 'signed out');
  return cookies;
}
