import { randomUUID } from 'node:crypto';
import { AppError } from '@/lib/contract/app-error';
import type { AccountRequest } from '@/lib/contract/people';
import { recordChange } from '@/lib/store/entities/change-records';
import {
  findPersonByEmail,
  insertPerson,
  type StoredPerson,
  setPasswordHash,
} from '@/lib/store/entities/people';
import type { Store } from '@/lib/store/open-store';
import type { Context } from '../context';

type Transaction = Parameters<Parameters<Store['entities']['$transaction']>[0]>[0];

/** An account to be made; without a hash it has no password, and somebody else lets its owner in. */
export type NewAccount = AccountRequest & { passwordHash: string | null };

/** Makes an account. @throws AppError 'conflict' where the address has one */
export function addAccount(context: Context, account: NewAccount): Promise<StoredPerson> {
  return context.store.entities.$transaction((transaction) => addAccountIn(transaction, context, account));
}

/** The same within a transaction that does more. */
export async function addAccountIn(
  transaction: Transaction,
  { actor, now }: Pick<Context, 'actor' | 'now'>,
  { passwordHash, ...account }: NewAccount,
): Promise<StoredPerson> {
  const at = now();
  if ((await findPersonByEmail(transaction, account.email)) !== null) throw taken(account.email);
  const person = await insertPerson(transaction, { ...account, id: randomUUID(), at });
  if (passwordHash !== null) await setPasswordHash(transaction, person.id, { hash: passwordHash, at });
  const after = { name: person.name, role: person.role };
  await recordChange(transaction, {
    actor,
    at,
    subject: 'account',
    name: person.email,
    action: 'added',
    after,
  });
  return person;
}

function taken(email: string): AppError {
  return new AppError('conflict', `${email} has an account already`, [
    { field: 'email', message: 'give another address, or change the account that is there' },
  ]);
}
