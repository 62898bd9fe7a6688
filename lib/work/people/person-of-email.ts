import { AppError } from '@/lib/contract/app-error';
import { findPersonByEmail, type StoredPerson } from '@/lib/store/entities/people';
import type { Context } from '../context';

/** The account of an address. @throws AppError 'not-found' */
export async function personOfEmail({ store }: Context, email: string): Promise<StoredPerson> {
  const person = await findPersonByEmail(store.entities, email);
  if (person !== null) return person;
  throw new AppError('not-found', `Nobody has an account with the address ${email}`, [
    { field: 'mail', message: 'cleanby user list names the accounts there are' },
  ]);
}
