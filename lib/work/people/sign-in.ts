import { callerAddress } from '@/lib/auth/caller';
import { MOST_ATTEMPTS, waitAfter } from '@/lib/auth/lock-out';
import { isPasswordOf, UNKNOWN_HASH } from '@/lib/auth/password-hash';
import { openSession } from '@/lib/auth/sessions';
import { NOBODY } from '@/lib/contract/actor';
import { AppError } from '@/lib/contract/app-error';
import { emailSchema } from '@/lib/contract/people';
import { recordChange } from '@/lib/store/entities/change-records';
import {
  findPersonByEmail,
  forgiveAttempts,
  passwordHashOf,
  type StoredPerson,
  takeAttempt,
} from '@/lib/store/entities/people';
import type { Context } from '../context';
import { log } from '../log';
import { admitAttempt, noteFailure } from './sign-in-attempts';

export type Credentials = { email: string; password: string };

/** Longer than any password we take: nobody makes us hash a megabyte. */
const LONGEST_PASSWORD = 1024;

/**
 * Signs a person in by address and password. An address without an account, a wrong password and an account that waits get the
 * same answer after the same work: nobody learns who has an account.
 *
 * @returns what to send as Set-Cookie
 * @throws AppError 'not-signed-in', 'too-many-requests'; 'not-allowed' for the right password of a disabled account
 */
export async function signIn(
  context: Context,
  { email, password }: Credentials,
  headers: Headers,
): Promise<string[]> {
  const { entities } = context.store;
  const address = callerAddress(headers);
  admitAttempt(headers, context.now());
  const parsed = emailSchema.safeParse(email);
  const person = parsed.success ? await findPersonByEmail(entities, parsed.data) : null;
  const attempt = person === null ? null : await countAttempt(context, person.id);
  const hash = person === null || attempt === null ? null : await passwordHashOf(entities, person.id);
  const fits = await isPasswordOf(hash ?? UNKNOWN_HASH, password.slice(0, LONGEST_PASSWORD));
  if (person === null || attempt === null || hash === null || !fits) {
    noteFailure(headers, context.now());
    log.warn({ event: 'sign-in-failed', account: person?.id ?? null, address }, 'a sign-in failed');
    if (person !== null && attempt !== null) await recordLock(context, person, attempt);
    throw refused();
  }
  await forgiveAttempts(entities, person.id);
  if (person.disabledAt !== null) throw disabled();
  return enter(context, person, headers);
}

/** Lets in a person who has been found to be who they say: new session, and a line in log and record. */
export async function enter(context: Context, person: StoredPerson, headers: Headers): Promise<string[]> {
  const cookies = await openSession(context.store, person.id, headers);
  const actor = { kind: 'person' as const, id: person.id, name: person.name };
  const change = { actor, at: context.now(), subject: 'account' as const, name: person.email };
  await recordChange(context.store.entities, { ...change, action: 'signed-in' });
  log.info({ event: 'signed-in', account: person.id, address: callerAddress(headers) }, 'signed in');
  return cookies;
}

function countAttempt({ store, now }: Context, id: string): Promise<number | null> {
  return store.entities.$transaction((transaction) =>
    takeAttempt(transaction, id, { now: now(), most: MOST_ATTEMPTS, waitAfter }),
  );
}

async function recordLock({ store, now }: Context, { email }: StoredPerson, attempt: number): Promise<void> {
  const wait = waitAfter(attempt);
  if (wait === 0) return;
  const until = attempt >= MOST_ATTEMPTS ? null : new Date(now() + wait).toISOString();
  await recordChange(store.entities, {
    actor: NOBODY,
    at: now(),
    subject: 'account',
    name: email,
    action: 'locked',
    after: { until },
    note: `${attempt} wrong passwords in a row`,
  });
}

function refused(): AppError {
  return new AppError('not-signed-in', 'No account has this address with this password, or it has to wait', [
    {
      field: 'password',
      message:
        'try again; after 10 wrong passwords in a row an account waits, first for a minute, then longer. ' +
        'An administrator can end that',
    },
  ]);
}

function disabled(): AppError {
  return new AppError('not-allowed', 'This account is disabled', [
    { field: 'email', message: 'ask an administrator of this server to enable it again' },
  ]);
}
