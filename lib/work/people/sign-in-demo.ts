import { isDemoOpen } from '@/lib/auth/demo';
import { AppError } from '@/lib/contract/app-error';
import { listPeople, passwordHashOf, type StoredPerson } from '@/lib/store/entities/people';
import type { Context } from '../context';
import { enter } from './sign-in';

/** Ends of the addresses of a demonstration's accounts: no mail can ever reach `.example` (RFC 2606). */
const DEMO_DOMAIN = '@demo.example';

/** Accounts that the sign-in page offers in one click; none unless the server was started as a demonstration on this machine. */
export async function demoAccounts({ store }: Context, headers: Headers): Promise<StoredPerson[]> {
  if (!isDemoOpen(headers)) return [];
  const people = await listPeople(store.entities);
  return people.filter(({ email, disabledAt }) => email.endsWith(DEMO_DOMAIN) && disabledAt === null);
}

/**
 * Opens an account of the demonstration. @returns what to send as Set-Cookie
 *
 * @throws AppError 'not-allowed' off this machine, where no demonstration was asked for, and for accounts with a password
 */
export async function signInToDemo(context: Context, email: string, headers: Headers): Promise<string[]> {
  const offered = await demoAccounts(context, headers);
  const person = offered.find((account) => account.email === email);
  if (person === undefined || (await passwordHashOf(context.store.entities, person.id)) !== null) {
    throw new AppError('not-allowed', 'This account is not open without a password', [
      { field: 'account', message: 'start "npm run demo" and open it on the same machine, or sign in' },
    ]);
  }
  return enter(context, person, headers);
}
