import { hashInvitationSecret } from '@/lib/auth/invitation-secret';
import { hashPassword } from '@/lib/auth/password-hash';
import { checkPassword } from '@/lib/auth/password-rules';
import { AppError } from '@/lib/contract/app-error';
import { roleSchema } from '@/lib/contract/people';
import { recordChange } from '@/lib/store/entities/change-records';
import { findOpenInvitation, markAccepted, type StoredInvitation } from '@/lib/store/entities/invitations';
import { actingAs, type Context } from '../context';
import { addAccountIn } from './add-account';
import { ownWords } from './own-words';
import { enter } from './sign-in';
import { admitAttempt } from './sign-in-attempts';

/** Whom a link invites and as what. @throws AppError 'not-found' for one that holds no longer, or never did */
export async function readInvitation({ store, now }: Context, secret: string): Promise<StoredInvitation> {
  const invitation = await findOpenInvitation(store.entities, hashInvitationSecret(secret), now());
  if (invitation === null) throw gone();
  return invitation;
}

export type Acceptance = { secret: string; name: string; password: string };

/**
 * Makes the account that a link invites to, once, and signs its owner in.
 *
 * @returns what to send as Set-Cookie
 * @throws AppError 'not-found' for a link that holds no longer, 'invalid-input' for the password, 'too-many-requests'
 */
export async function acceptInvitation(
  context: Context,
  { secret, name, password }: Acceptance,
  headers: Headers,
): Promise<string[]> {
  admitAttempt(headers, context.now());
  const { email, invitedBy } = await readInvitation(context, secret);
  checkPassword(password, await ownWords(context, { name, email }));
  const passwordHash = await hashPassword(password);
  const person = await context.store.entities.$transaction(async (transaction) => {
    // Asked once more: it may have been withdrawn or taken up while the password was hashed.
    const invitation = await findOpenInvitation(transaction, hashInvitationSecret(secret), context.now());
    if (invitation === null || !(await markAccepted(transaction, invitation.id, context.now()))) throw gone();
    const actor = { kind: 'system' as const, id: null, name: `invitation by ${invitedBy}` };
    const role = roleSchema.parse(invitation.role);
    const change = { actor, at: context.now(), subject: 'invitation' as const, name: email };
    await recordChange(transaction, { ...change, action: 'accepted' });
    return addAccountIn(transaction, actingAs(context, actor), { name, email, role, passwordHash });
  });
  return enter(context, person, headers);
}

function gone(): AppError {
  return new AppError('not-found', 'This invitation holds no longer', [
    { field: 'invitation', message: 'it was used, withdrawn, or is older than 7 days: ask for a new one' },
  ]);
}
