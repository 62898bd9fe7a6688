import { mayStartFirst } from '@/lib/auth/first-run-code';
import { hashPassword } from '@/lib/auth/password-hash';
import { checkPassword } from '@/lib/auth/password-rules';
import { AppError } from '@/lib/contract/app-error';
import { countPeople } from '@/lib/store/entities/people';
import { actingAs, type Context } from '../context';
import { addAccountIn } from './add-account';
import { ownWords } from './own-words';
import { enter } from './sign-in';
import { admitAttempt } from './sign-in-attempts';

/** Whoever makes the first account: nobody is known yet. */
const FIRST_RUN = { kind: 'system' as const, id: null, name: 'first run' };

/** Whether nobody has an account yet. */
export async function isFirstRun({ store }: Context): Promise<boolean> {
  return (await countPeople(store.entities)) === 0;
}

export type FirstAdministrator = { name: string; email: string; password: string; code: string };

/**
 * Makes the first account, which is an administrator's, and signs that one in. Of two at once one makes it.
 *
 * @returns what to send as Set-Cookie
 * @throws AppError 'not-allowed' from elsewhere without the code, 'conflict' where there is an account already,
 * 'too-many-requests'
 */
export async function startFirst(
  context: Context,
  { name, email, password, code }: FirstAdministrator,
  headers: Headers,
): Promise<string[]> {
  admitAttempt(headers, context.now());
  if (!(await isFirstRun(context))) throw started();
  if (!mayStartFirst(headers, code)) throw unknownCode();
  checkPassword(password, await ownWords(context, { name, email }));
  const passwordHash = await hashPassword(password);
  const starting = actingAs(context, FIRST_RUN);
  const person = await context.store.entities.$transaction(async (transaction) => {
    if ((await countPeople(transaction)) > 0) throw started();
    return addAccountIn(transaction, starting, { name, email, role: 'administrator', passwordHash });
  });
  return enter(context, person, headers);
}

function started(): AppError {
  return new AppError('conflict', 'Somebody has made the first account already', [
    { field: 'email', message: 'sign in, or ask that person for an invitation' },
  ]);
}

function unknownCode(): AppError {
  return new AppError(
    'not-allowed',
    'The first account is made at the machine that serves, or with its code',
    [{ field: 'code', message: 'copy the code that "cleanby serve" printed when it started' }],
  );
}
