import { randomBytes } from 'node:crypto';
import { betterAuth } from 'better-auth';
import { prismaAdapter } from 'better-auth/adapters/prisma';
import { readSetting } from '@/lib/store/entities/settings';
import type { Store } from '@/lib/store/open-store';

/** Bytes of the secret that session cookies are signed with. */
const SECRET_BYTES = 32;

const made = new WeakMap<object, Promise<SignInLibrary>>();

export type SignInLibrary = Awaited<ReturnType<typeof make>>;

/** The sign-in library over a database, made once per database. */
export function signInLibrary(store: Store): Promise<SignInLibrary> {
  let library = made.get(store.entities);
  if (library === undefined) {
    library = make(store);
    made.set(store.entities, library);
    library.catch(() => made.delete(store.entities));
  }
  return library;
}

async function make({ entities }: Store) {
  const secret = await readSetting(entities, 'session-secret', () =>
    randomBytes(SECRET_BYTES).toString('base64url'),
  );
  return betterAuth({
    secret,
    telemetry: { enabled: false },
    database: prismaAdapter(entities, { provider: 'sqlite' }),
    emailAndPassword: { enabled: true, disableSignUp: true },
    user: { additionalFields: { role: { type: 'string', required: true, input: false } } },
  });
}
