import type { Store } from '@/lib/store/open-store';
import { isReachedByHttps } from './caller';

/** So many are remembered of a database; those not seen for longest are forgotten. */
const MOST_COOKIES = 1_000;

/**
 * Cookies that were found to be signed by this server, and the number of the session each is of. Whether that session still
 * holds is never remembered. A single other letter in what a browser sends is another cookie.
 */
export class KnownCookies {
  private readonly ofStore = new WeakMap<object, Map<string, string>>();

  sessionOf({ entities }: Store, headers: Headers): string | null {
    const known = this.ofStore.get(entities);
    const key = keyOf(headers);
    const session = known?.get(key);
    if (known === undefined || session === undefined) return null;
    known.delete(key);
    known.set(key, session);
    return session;
  }

  keep({ entities }: Store, headers: Headers, session: string): void {
    const known = this.ofStore.get(entities) ?? new Map<string, string>();
    this.ofStore.set(entities, known);
    if (known.size >= MOST_COOKIES) known.delete(known.keys().next().value!);
    known.set(keyOf(headers), session);
  }
}

/** By https another cookie is looked for than without. */
function keyOf(headers: Headers): string {
  return `${isReachedByHttps(headers)} ${headers.get('cookie')}`;
}
