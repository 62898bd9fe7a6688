import { MOST_ATTEMPTS, waitAfter } from '@/lib/auth/lock-out';
import { hashPassword, isPasswordOf, UNKNOWN_HASH } from '@/lib/auth/password-hash';
import { checkPassword } from '@/lib/auth/password-rules';
import { currentSession, openSession } from '@/lib/auth/sessions';
import { AppError } from '@/lib/contract/app-error';
import { recordChange } from '@/lib/store/entities/change-records';
import {
  findPerson,
  forgiveAttempts,
  passwordHashOf,
  renamePerson,
  type StoredPerson,
  setPasswordHash,
  takeAttempt,
} from '@/lib/store/entities/people';
import { deleteSessions } from '@/lib/store/entities/sessions';
import type { Context } from '../context';
import { ownWords } from './own-words';

/** The account of whoever is signed in. @throws AppError 'not-signed-in' for programs and for nobody */
export async function ownAccount({ store, actor }: Context): Promise<StoredPerson> {
  const person =
    actor.kind === 'person' && actor.id !== null ? await findPerson(store.entities, actor.id) : null;
  if (person !== null) return person;
  throw new AppError('not-signed-in', 'Sign in to see your account');
}

/** Changes what the person is called from now on; records keep the name of their day. */
export async function renameOwn(context: Context, name: string): Promise<void> {
  const { id, email, name: before } = await ownAccount(context);
  if (name === before) return;
  const { actor, now } = context;
  await context.store.entities.$transaction(async (transaction) => {
    await renamePerson(transaction, id, name);
    const change = { actor, at: now(), subject: 'account' as const, name: email, action: 'changed' as const };
    await recordChange(transaction, { ...change, before: { name: before }, after: { name } });
  });
}

export type PasswordChange = { current: string; password: string };

/**
 * Changes the person's password and ends every session but this browser's, which gets a new one.
 *
 * @returns what to send as Set-Cookie
 * @throws AppError 'invalid-input' naming the field: the current password wrong, or the new one not taken
 */
export async function changeOwnPassword(
  context: Context,
  { current, password }: PasswordChange,
  headers: Headers,
): Promise<string[]> {
  const person = await ownAccount(context);
  await confirmPassword(context, person, current);
  checkPassword(password, await ownWords(context, person));
  const hash = await hashPassword(password);
  const { actor, now } = context;
  await context.store.entities.$transaction(async (transaction) => {
    await setPasswordHash(transaction, person.id, { hash, at: now() });
    await deleteSessions(transaction, person.id);
    const change = { actor, at: now(), subject: 'account' as const, name: person.email };
    await recordChange(transaction, { ...change, action: 'changed', note: 'password' });
  });
  return openSession(context.store, person.id, headers);
}

/** Wrong ones count like those of signing in: who finds a browser open must not guess on. */
async function confirmPassword(
  { store, now }: Context,
  { id }: StoredPerson,
  current: string,
): Promise<void> {
  const attempt = await store.entities.$transaction((transaction) =>
    takeAttempt(transaction, id, { now: now(), most: MOST_ATTEMPTS, waitAfter }),
  );
  const hash = attempt === null ? null : await passwordHashOf(store.entities, id);
  if (!(await isPasswordOf(hash ?? UNKNOWN_HASH, current))) {
    throw new AppError('invalid-input', 'Your password was not changed', [
      { field: 'current', message: 'this is not your password, or it was wrong too often and has to wait' },
    ]);
  }
  await forgiveAttempts(store.entities, id);
}

/** Ends another session of one's own. */
export async function endOwnSession(context: Context, sessionId: string): Promise<void> {
  await endSessions(context, { id: sessionId });
}

/** Ends all sessions of one's own but the one of the browser that asks. */
export async function endOtherSessions(context: Context, headers: Headers): Promise<void> {
  const current = await currentSession(context.store, headers);
  await endSessions(context, { except: current?.session.id ?? '' });
}

async function endSessions(context: Context, which: { id: string } | { except: string }): Promise<void> {
  const { id, email } = await ownAccount(context);
  const { actor, now } = context;
  await context.store.entities.$transaction(async (transaction) => {
    const ended = await deleteSessions(transaction, id, which);
    if (ended === 0) return;
    const note = ended === 1 ? '1 session ended' : `${ended} sessions ended`;
    const change = { actor, at: now(), subject: 'account' as const, name: email };
    await recordChange(transaction, { ...change, action: 'changed', note });
  });
}
