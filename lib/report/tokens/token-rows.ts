export type TokenState = 'holds' | 'expired' | 'revoked';

/** A token as it is kept; instants in ms since 1970. */
export type TokenRecord = {
  id: number;
  name: string;
  prefix: string;
  scopes: string[];
  createdBy: string;
  createdAt: number;
  expiresAt: number | null;
  lastUsedAt: number | null;
  revokedAt: number | null;
  revokedBy: string | null;
};

/** Whether a token is taken at an instant [ms], and why not. */
export function tokenState({ revokedAt, expiresAt }: TokenRecord, now: number): TokenState {
  if (revokedAt !== null) return 'revoked';
  return expiresAt !== null && expiresAt <= now ? 'expired' : 'holds';
}

/** Tokens as the command line lists them, instants in ISO 8601. */
export function tokenRows(tokens: TokenRecord[], now: number) {
  const iso = (at: number | null) => (at === null ? null : new Date(at).toISOString());
  return tokens.map((token) => ({
    id: token.id,
    name: token.name,
    prefix: token.prefix,
    state: tokenState(token, now),
    scopes: token.scopes,
    createdBy: token.createdBy,
    createdAt: iso(token.createdAt),
    expiresAt: iso(token.expiresAt),
    lastUsedAt: iso(token.lastUsedAt),
    revokedAt: iso(token.revokedAt),
    revokedBy: token.revokedBy,
  }));
}
