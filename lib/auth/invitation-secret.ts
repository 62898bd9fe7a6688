import { createHash, randomBytes } from 'node:crypto';

const SECRET_BYTES = 32;
const DAY = 24 * 3_600_000;

/** How long the link of an invitation can be taken up [ms]. */
export const INVITATION_LIFE_MS = 7 * DAY;

/** A secret for the link of an invitation, and the hash of it to keep. 256 random bits need no slow hash. */
export function makeInvitationSecret(): { secret: string; secretHash: string } {
  const secret = randomBytes(SECRET_BYTES).toString('base64url');
  return { secret, secretHash: hashInvitationSecret(secret) };
}

export function hashInvitationSecret(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}

/** Where an invitation is taken up. The secret stands behind #, which browsers keep to themselves: no log ever holds it. */
export function invitationPath(secret: string): string {
  return `/invitation#${secret}`;
}
