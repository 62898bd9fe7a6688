import { AppError } from '@/lib/contract/app-error';
import { findToken, noteTokenUse, type StoredToken } from '@/lib/store/entities/api-tokens';
import type { Store } from '@/lib/store/open-store';
import { type Right, TOKEN_SCOPES } from './rights';
import { hashSecret } from './token-secret';
import type { Visitor } from './visitor';

/** Use is written down no more often than this [ms]: a program that sends every second must not write for each request. */
const LAST_USE_STEP_MS = 60_000;

/** Whether an Authorization header is meant as a token, one that holds or not. */
export function isToken(authorization: string | null): authorization is string {
  return authorization !== null && /^Bearer(\s|$)/i.test(authorization);
}

/** The program behind an Authorization header. @throws AppError 'not-signed-in' for a token that is none or no longer */
export async function visitorOfToken(store: Store, authorization: string, now: number): Promise<Visitor> {
  const secret = /^Bearer\s+(\S+)$/i.exec(authorization)?.[1];
  const token = secret === undefined ? null : await findToken(store.entities, hashSecret(secret));
  if (token === null) throw refused('is none of this server; make one under Tokens');
  if (token.revokedAt !== null) throw refused('was revoked');
  if (token.expiresAt !== null && token.expiresAt <= now) throw refused('has expired');
  noteUse(store, token, now);
  const rights = TOKEN_SCOPES.filter((right) => token.scopes.includes(right));
  return {
    actor: { kind: 'token', id: String(token.id), name: token.name },
    role: null,
    rights: new Set<Right>(rights),
  };
}

/** Nobody waits for it, and a request is not refused because it cannot be written. */
function noteUse(store: Store, { id, lastUsedAt }: StoredToken, now: number): void {
  if (lastUsedAt !== null && now - lastUsedAt < LAST_USE_STEP_MS) return;
  noteTokenUse(store.entities, id, now).catch(() => {});
}

function refused(what: string): AppError {
  return new AppError('not-signed-in', `The token ${what}`, [
    { field: 'Authorization', message: 'send "Authorization: Bearer TOKEN" with a token that holds' },
  ]);
}
