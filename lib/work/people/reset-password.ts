import { hashPassword } from '@/lib/auth/password-hash';
import { checkPassword } from '@/lib/auth/password-rules';
import { recordChange } from '@/lib/store/entities/change-records';
import { forgiveAttempts, type StoredPerson, setPasswordHash } from '@/lib/store/entities/people';
import { deleteSessions } from '@/lib/store/entities/sessions';
import type { Context } from '../context';
import { ownWords } from './own-words';

/** A password for an account, if it is one we take. @throws AppError 'invalid-input' */
export async function acceptablePassword(
  context: Context,
  account: { name: string; email: string },
  password: string,
): Promise<string> {
  checkPassword(password, await ownWords(context, account));
  return password;
}

/** Gives an account another password; every session ends, and so does a wait after wrong ones. */
export async function resetPassword(context: Context, person: StoredPerson, password: string): Promise<void> {
  const hash = await hashPassword(await acceptablePassword(context, person, password));
  const { actor, now, store } = context;
  await store.entities.$transaction(async (transaction) => {
    await setPasswordHash(transaction, person.id, { hash, at: now() });
    await forgiveAttempts(transaction, person.id);
    await deleteSessions(transaction, person.id);
    const change = { actor, at: now(), subject: 'account' as const, name: person.email };
    await recordChange(transaction, { ...change, action: 'changed', note: 'password' });
  });
}
