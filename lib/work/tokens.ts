import { TOKEN_SCOPES } from '@/lib/auth/rights';
import { makeTokenSecret } from '@/lib/auth/token-secret';
import { type TokenRequest, tokenRequestSchema } from '@/lib/contract/api/token-request';
import { AppError } from '@/lib/contract/app-error';
import { faultsOf } from '@/lib/contract/faults';
import {
  addToken,
  findTokenById,
  findTokenByName,
  listTokens,
  revokeToken,
  type StoredToken,
} from '@/lib/store/entities/api-tokens';
import { recordChange } from '@/lib/store/entities/change-records';
import type { Context } from './context';

const DAY_MS = 86_400_000;

export type MadeToken = { token: StoredToken; secret: string };

/**
 * Makes a token. The secret is given out here and nowhere again: what is kept is its hash.
 *
 * @throws AppError 'invalid-input' naming each field, 'conflict' where a token of that name holds
 */
export async function makeToken(context: Context, request: TokenRequest): Promise<MadeToken> {
  const { name, scopes, days } = checked(request);
  const { actor, store } = context;
  const at = context.now();
  const expiresAt = days === null ? null : at + days * DAY_MS;
  const { secret, ...kept } = makeTokenSecret();
  const token = await store.entities.$transaction(async (transaction) => {
    const known = await findTokenByName(transaction, name);
    if (known !== null && isHolding(known, at)) throw nameTaken(name);
    const made = { name, scopes, createdBy: actor.name, createdAt: at, expiresAt };
    const added = await addToken(transaction, { ...kept, ...made });
    await recordChange(transaction, {
      actor,
      at,
      subject: 'token',
      name,
      action: 'added',
      after: shown(added),
    });
    return added;
  });
  return { token, secret };
}

function checked(request: TokenRequest) {
  const parsed = tokenRequestSchema.safeParse(request);
  const faults = parsed.success ? [] : faultsOf(parsed.error);
  const scopes = TOKEN_SCOPES.filter((scope) => request.scopes.includes(scope));
  for (const scope of request.scopes) {
    if ((scopes as string[]).includes(scope)) continue;
    faults.push({ field: 'scopes', message: `"${scope}" is none; use ${TOKEN_SCOPES.join(', ')}` });
  }
  if (!parsed.success || faults.length > 0) {
    throw new AppError('invalid-input', 'No token was made', faults);
  }
  return { ...parsed.data, scopes };
}

function nameTaken(name: string): AppError {
  return new AppError('conflict', `There is already a token "${name}" that holds`, [
    { field: 'name', message: 'choose another name, or revoke that token first' },
  ]);
}

/** Whether a token is taken at an instant [ms]. */
export function isHolding({ revokedAt, expiresAt }: StoredToken, at: number): boolean {
  return revokedAt === null && (expiresAt === null || expiresAt > at);
}

/** Every token ever made, the newest first. */
export async function readTokens(context: Context): Promise<StoredToken[]> {
  return listTokens(context.store.entities);
}

/**
 * Revokes a token for good: the next request that sends it is refused.
 *
 * @throws AppError 'not-found', 'conflict' where it was revoked before
 */
export async function withdrawToken(context: Context, id: number): Promise<StoredToken> {
  const { actor, store } = context;
  const at = context.now();
  return store.entities.$transaction(async (transaction) => {
    const token = await findTokenById(transaction, id);
    if (token === null) throw new AppError('not-found', `There is no token ${id}`);
    if (!(await revokeToken(transaction, id, { at, by: actor.name }))) {
      throw new AppError('conflict', `${token.revokedBy ?? 'Somebody'} has revoked "${token.name}" already`);
    }
    const change = { subject: 'token', name: token.name, action: 'withdrawn', before: shown(token) } as const;
    await recordChange(transaction, { actor, at, ...change });
    return { ...token, revokedAt: at, revokedBy: actor.name };
  });
}

/** What the change record keeps of a token: nothing that would let anybody in. */
function shown({ prefix, scopes, expiresAt }: StoredToken) {
  const until = expiresAt === null ? null : new Date(expiresAt).toISOString();
  return { prefix, scopes, expiresAt: until };
}
