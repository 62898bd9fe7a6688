import { createHash, randomBytes } from 'node:crypto';

/** What every token begins with, so that people and scanners of secrets know one when they see it. */
const MARK = 'cleanby_';
const SECRET_BYTES = 32;
/** Characters of a token that a list shows. */
const SHOWN = MARK.length + 6;

/** A new secret, its hash to keep and the beginning people know it by. 256 random bits need no slow hash. */
export function makeTokenSecret(): { secret: string; secretHash: string; prefix: string } {
  const secret = MARK + randomBytes(SECRET_BYTES).toString('base64url');
  return { secret, secretHash: hashSecret(secret), prefix: secret.slice(0, SHOWN) };
}

export function hashSecret(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}
