import type { Role } from '@/lib/auth/rights';
import { AppError } from '@/lib/contract/app-error';
import type { PersonChangeRequest } from '@/lib/contract/people';
import { recordChange } from '@/lib/store/entities/change-records';
import {
  countOtherAdministrators,
  findPerson,
  forgiveAttempts,
  lastAccountChange,
  type PersonChange,
  type StoredPerson,
  updatePerson,
} from '@/lib/store/entities/people';
import { deleteSessions } from '@/lib/store/entities/sessions';
import type { Store } from '@/lib/store/open-store';
import type { Context } from '../context';

type Transaction = Parameters<Parameters<Store['entities']['$transaction']>[0]>[0];

/**
 * Does to an account what an administrator asks. A change of role or access ends its sessions.
 *
 * @returns what was done, in words
 * @throws AppError 'conflict' where somebody else has changed it since it was seen, or it is the last administrator's
 */
export function changePerson(context: Context, request: PersonChangeRequest): Promise<string> {
  return context.store.entities.$transaction(async (transaction) => {
    const known = await knownPerson(transaction, request.id);
    const doing = { transaction, context, known };
    if (request.what === 'unlock') return unlock(doing);
    if (request.what === 'end-sessions') return endSessions(doing);
    if (known.revision !== request.revision) throw await overtaken(transaction, known);
    return request.what === 'role' ? giveRole(doing, request.role) : setAccess(doing, request.what);
  });
}

/** Gives the role that the plant's identity provider states, if it is another. */
export function takeProvidersRole(context: Context, id: string, role: Role): Promise<void> {
  return context.store.entities.$transaction(async (transaction) => {
    const known = await knownPerson(transaction, id);
    if (known.role !== role) await giveRole({ transaction, context, known }, role);
  });
}

type Doing = { transaction: Transaction; context: Context; known: StoredPerson };

async function giveRole(doing: Doing, role: string): Promise<string> {
  const { name, role: was } = doing.known;
  if (was === role) return `${name} was ${role} already.`;
  await update(doing, { data: { role }, before: { role: was }, after: { role } });
  return `${name} is now ${role}.`;
}

async function setAccess(doing: Doing, what: 'enable' | 'disable'): Promise<string> {
  const { name, disabledAt: since } = doing.known;
  const [was, is] = [since === null ? 'enabled' : 'disabled', `${what}d`];
  if (was === is) return `${name} was ${is} already.`;
  const disabledAt = what === 'disable' ? new Date(doing.context.now()) : null;
  await update(doing, { data: { disabledAt }, before: { access: was }, after: { access: is } });
  return `${name} is now ${is}.`;
}

/** Lets an account in again that waits after wrong passwords. */
async function unlock({ transaction, context, known }: Doing): Promise<string> {
  if (known.failedSignIns === 0) return `${known.name} does not wait.`;
  await forgiveAttempts(transaction, known.id);
  const before = { wrongPasswords: known.failedSignIns };
  await recordAccount(transaction, context, known, { before, after: { wrongPasswords: 0 } });
  return `${known.name} can sign in again.`;
}

async function endSessions({ transaction, context, known }: Doing): Promise<string> {
  const ended = await deleteSessions(transaction, known.id);
  const sessions = ended === 1 ? '1 session' : `${ended} sessions`;
  if (ended > 0) await recordAccount(transaction, context, known, { note: `${sessions} ended` });
  return `${known.name}: ${sessions} ended.`;
}

type Changed = { data: PersonChange; before: object; after: object };

async function update({ transaction, context, known }: Doing, made: Changed): Promise<void> {
  await keepAnAdministrator(transaction, known, made.data);
  await updatePerson(transaction, known, made.data);
  await deleteSessions(transaction, known.id);
  await recordAccount(transaction, context, known, made);
}

async function knownPerson(transaction: Transaction, id: string): Promise<StoredPerson> {
  const known = await findPerson(transaction, id);
  if (known !== null) return known;
  throw new AppError('not-found', 'There is no such account', [
    { field: 'person', message: 'load the page again to see who has one' },
  ]);
}

/** @throws AppError 'conflict' where nobody would be left to let others in */
async function keepAnAdministrator(
  transaction: Transaction,
  known: StoredPerson,
  { role = known.role, disabledAt }: PersonChange,
): Promise<void> {
  const stays = role === 'administrator' && (disabledAt ?? null) === null;
  if (stays || known.role !== 'administrator' || known.disabledAt !== null) return;
  if ((await countOtherAdministrators(transaction, known.id)) > 0) return;
  throw new AppError('conflict', `${known.name} is the only administrator`, [
    { field: 'person', message: 'make somebody else an administrator first' },
  ]);
}

/** What somebody else did in the meantime, in words. */
async function overtaken(transaction: Transaction, known: StoredPerson): Promise<AppError> {
  const last = await lastAccountChange(transaction, known.email);
  const state = `${known.role}, ${known.disabledAt === null ? 'enabled' : 'disabled'}`;
  const who = last === null ? 'Somebody else' : last.actorName;
  return new AppError('conflict', `${who} has changed ${known.name} in the meantime: now ${state}`, [
    { field: 'person', message: 'look at how it stands, and change it again if it still has to be' },
  ]);
}

async function recordAccount(
  transaction: Transaction,
  { actor, now }: Context,
  { email }: StoredPerson,
  { before, after, note }: { before?: object; after?: object; note?: string },
): Promise<void> {
  const at = now();
  await recordChange(transaction, {
    actor,
    at,
    subject: 'account',
    name: email,
    action: 'changed',
    before,
    after,
    note,
  });
}
