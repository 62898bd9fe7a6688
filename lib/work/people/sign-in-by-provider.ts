import { type Arrived, returnFromProvider } from '@/lib/auth/provider-sign-in';
import { AppError } from '@/lib/contract/app-error';
import { recordChange } from '@/lib/store/entities/change-records';
import { findPerson, type StoredPerson } from '@/lib/store/entities/people';
import { actingAs, type Context } from '../context';
import { takeProvidersRole } from './change-person';
import { enter } from './sign-in';

const PROVIDER = { kind: 'system' as const, id: null, name: 'identity provider' };

/**
 * Lets in somebody who comes back from the plant's identity provider. An account that is there already is opened to that one only
 * where the provider has verified the same address; where it states roles, its role counts.
 *
 * @returns what to send as Set-Cookie, and the page to go to
 * @throws AppError 'not-signed-in' where the provider's answer does not hold, 'not-allowed' for a disabled account
 */
export async function signInByProvider(
  context: Context,
  request: Request,
): Promise<{ cookies: string[]; to: string }> {
  const arrived = await returnFromProvider(context.store, request);
  if (arrived === null) throw refused();
  const person = await settle(context, arrived);
  if (person.disabledAt !== null) throw disabled();
  return { cookies: await enter(context, person, request.headers), to: arrived.to };
}

/** Writes down what came of it, and gives the role that the provider states. */
async function settle(context: Context, { userId, isNew, isLinked, role }: Arrived): Promise<StoredPerson> {
  const { entities } = context.store;
  const arriving = actingAs(context, PROVIDER);
  const known = (await findPerson(entities, userId))!;
  const change = { actor: PROVIDER, at: context.now(), subject: 'account' as const, name: known.email };
  if (isNew) {
    const after = { name: known.name, role: known.role };
    await recordChange(entities, { ...change, action: 'added', after });
  } else if (isLinked) {
    await recordChange(entities, { ...change, action: 'changed', note: 'opened to the identity provider' });
  }
  if (role !== null && role !== known.role) await takeProvidersRole(arriving, userId, role);
  return (await findPerson(entities, userId))!;
}

function refused(): AppError {
  return new AppError('not-signed-in', 'The identity provider did not vouch for you', [
    {
      field: 'provider',
      message: 'try again, or sign in with a password; the address must be verified there',
    },
  ]);
}

function disabled(): AppError {
  return new AppError('not-allowed', 'This account is disabled', [
    { field: 'email', message: 'ask an administrator of this server to enable it again' },
  ]);
}
