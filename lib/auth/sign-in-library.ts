import { randomBytes } from 'node:crypto';
import { betterAuth } from 'better-auth';
import { prismaAdapter } from 'better-auth/adapters/prisma';
import { readSetting } from '@/lib/store/entities/settings';
import type { Store } from '@/lib/store/open-store';
import { isReachedByHttps } from './caller';
import type { IdentityProvider } from './identity-provider';
import { logLibrary } from './library-log';
import { serverSessions } from './open-session';
import { hashPassword, isPasswordOf } from './password-hash';
import { providerHooks, providerPlugin } from './provider-plugin';
import { ABSOLUTE_LIMIT_MS } from './session-limits';

/** Bytes of the secret that session cookies are signed with. */
const SECRET_BYTES = 32;

export type SignInLibrary = Awaited<ReturnType<typeof make>>;

const made = new WeakMap<object, Map<string, Promise<SignInLibrary>>>();

/** The sign-in library over a database, made once for those who come by https and once for those who do not. */
export function signInLibrary(store: Store, headers: Headers): Promise<SignInLibrary> {
  return libraryOf(store, isReachedByHttps(headers), null);
}

/**
 * The same with the plant's identity provider, which it asks for its addresses when it is made: who is signed in is never asked
 * of this one, so that a provider which does not answer holds nobody up.
 */
export function providerLibrary(
  store: Store,
  headers: Headers,
  provider: IdentityProvider,
): Promise<SignInLibrary> {
  return libraryOf(store, isReachedByHttps(headers), provider);
}

function libraryOf(
  store: Store,
  isSecure: boolean,
  provider: IdentityProvider | null,
): Promise<SignInLibrary> {
  const { entities } = store;
  const known = made.get(entities) ?? new Map<string, Promise<SignInLibrary>>();
  made.set(entities, known);
  const key = `${isSecure} ${provider?.issuer}`;
  let library = known.get(key);
  if (library === undefined) {
    library = make(store, isSecure, provider);
    known.set(key, library);
    library.catch(() => known.delete(key));
  }
  return library;
}

async function make(
  { entities, provider: database }: Store,
  isSecure: boolean,
  provider: IdentityProvider | null,
) {
  const secret = await readSetting(entities, 'session-secret', () =>
    randomBytes(SECRET_BYTES).toString('base64url'),
  );
  return betterAuth({
    secret,
    // Nothing of the library has an address here but the way back from an identity provider.
    baseURL: provider?.origin ?? 'http://localhost',
    logger: { level: 'error', log: (_level, message) => logLibrary(message) },
    telemetry: { enabled: false },
    rateLimit: { enabled: false },
    database: prismaAdapter(entities, { provider: database }),
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      password: { hash: hashPassword, verify: ({ hash, password }) => isPasswordOf(hash, password) },
    },
    // The end of a session is fixed when it begins; how long it may lie unused is judged in sessions.ts.
    session: { expiresIn: ABSOLUTE_LIMIT_MS / 1000, disableSessionRefresh: true },
    user: {
      additionalFields: {
        // Never taken from what somebody sends; who makes an account states it.
        role: { type: 'string', required: false, input: false },
        disabledAt: { type: 'date', required: false, input: false },
      },
    },
    account: { updateAccountOnSignIn: false },
    advanced: cookieSettings(isSecure),
    databaseHooks: provider === null ? undefined : providerHooks(provider),
    plugins: [serverSessions(), ...(provider === null ? [] : [providerPlugin(provider)])],
  });
}

/** By https a browser keeps the cookies to this very host (prefix __Host-) and sends them by https only. */
function cookieSettings(isSecure: boolean) {
  return {
    useSecureCookies: false,
    cookiePrefix: isSecure ? '__Host-cleanby' : 'cleanby',
    defaultCookieAttributes: { secure: isSecure, httpOnly: true, sameSite: 'lax' as const, path: '/' },
  };
}
