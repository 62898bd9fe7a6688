import { INVITATION_LIFE_MS, makeInvitationSecret } from '@/lib/auth/invitation-secret';
import { AppError } from '@/lib/contract/app-error';
import type { AccountRequest } from '@/lib/contract/people';
import { recordChange } from '@/lib/store/entities/change-records';
import { insertInvitation, type StoredInvitation, withdrawOpen } from '@/lib/store/entities/invitations';
import { findPersonByEmail } from '@/lib/store/entities/people';
import type { Context } from '../context';

/** An invitation with the secret for its link, which is not kept and cannot be shown again. */
export type Invited = { invitation: StoredInvitation; secret: string };

/**
 * Invites somebody to make an account. An earlier invitation for the address stops holding.
 *
 * @throws AppError 'conflict' where the address has an account
 */
export async function invite(context: Context, { email, name, role }: AccountRequest): Promise<Invited> {
  const { actor, now } = context;
  const at = now();
  const { secret, secretHash } = makeInvitationSecret();
  const invitation = await context.store.entities.$transaction(async (transaction) => {
    if ((await findPersonByEmail(transaction, email)) !== null) throw hasAccount(email);
    await withdrawOpen(transaction, { email }, at);
    const expiresAt = at + INVITATION_LIFE_MS;
    const asked = { email, name, role, invitedBy: actor.name, createdAt: at, expiresAt, secretHash };
    await recordChange(transaction, {
      actor,
      at,
      subject: 'invitation',
      name: email,
      action: 'added',
      after: { name, role, expiresAt: new Date(expiresAt).toISOString() },
    });
    return insertInvitation(transaction, asked);
  });
  return { invitation, secret };
}

/** Takes an invitation back: its link does nothing any more. @throws AppError 'not-found' for one that is not open */
export async function withdrawInvitation(
  { store, actor, now }: Context,
  id: number,
): Promise<StoredInvitation> {
  const at = now();
  return store.entities.$transaction(async (transaction) => {
    const [withdrawn] = await withdrawOpen(transaction, { id }, at);
    if (withdrawn === undefined) throw notOpen();
    const { email, name, role } = withdrawn;
    const before = { name, role };
    await recordChange(transaction, {
      actor,
      at,
      subject: 'invitation',
      name: email,
      action: 'withdrawn',
      before,
    });
    return withdrawn;
  });
}

function hasAccount(email: string): AppError {
  return new AppError('conflict', `${email} has an account already`, [
    { field: 'email', message: 'change the role of the account that is there, or give another address' },
  ]);
}

function notOpen(): AppError {
  return new AppError('not-found', 'This invitation has been taken up or withdrawn', [
    { field: 'invitation', message: 'load the page again to see how it stands' },
  ]);
}
