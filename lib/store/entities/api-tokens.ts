import type { PrismaClient } from '@/generated/sqlite/client';

/** A program's key as it is kept: of the secret only the hash. */
export type StoredToken = {
  id: number;
  name: string;
  prefix: string;
  scopes: string[];
  createdBy: string;
  /** [ms] */
  createdAt: number;
  expiresAt: number | null;
  lastUsedAt: number | null;
  revokedAt: number | null;
  revokedBy: string | null;
};

type Row = Awaited<ReturnType<PrismaClient['apiToken']['findUniqueOrThrow']>>;

function fromRow({ secretHash: _, scopes, ...row }: Row): StoredToken {
  const instant = (at: Date | null) => at?.getTime() ?? null;
  return {
    ...row,
    scopes: JSON.parse(scopes) as string[],
    createdAt: row.createdAt.getTime(),
    expiresAt: instant(row.expiresAt),
    lastUsedAt: instant(row.lastUsedAt),
    revokedAt: instant(row.revokedAt),
  };
}

export async function findToken(entities: PrismaClient, secretHash: string): Promise<StoredToken | null> {
  const row = await entities.apiToken.findUnique({ where: { secretHash } });
  return row === null ? null : fromRow(row);
}

export async function addToken(
  entities: Pick<PrismaClient, 'apiToken'>,
  {
    secretHash,
    ...token
  }: Omit<StoredToken, 'id' | 'lastUsedAt' | 'revokedAt' | 'revokedBy'> & { secretHash: string },
): Promise<StoredToken> {
  const { scopes, createdAt, expiresAt, ...rest } = token;
  const row = await entities.apiToken.create({
    data: {
      ...rest,
      secretHash,
      scopes: JSON.stringify(scopes),
      createdAt: new Date(createdAt),
      expiresAt: expiresAt === null ? null : new Date(expiresAt),
    },
  });
  return fromRow(row);
}

/** Every token ever made, the newest first. */
export async function listTokens(entities: PrismaClient): Promise<StoredToken[]> {
  const rows = await entities.apiToken.findMany({ orderBy: { id: 'desc' } });
  return rows.map(fromRow);
}

type Tokens = Pick<PrismaClient, 'apiToken'>;

/** The token of that number; null where there is none. */
export async function findTokenById(entities: Tokens, id: number): Promise<StoredToken | null> {
  const row = await entities.apiToken.findUnique({ where: { id } });
  return row === null ? null : fromRow(row);
}

/** A token of that name that was not revoked; null where there is none. */
export async function findTokenByName(entities: Tokens, name: string): Promise<StoredToken | null> {
  const row = await entities.apiToken.findFirst({ where: { name, revokedAt: null } });
  return row === null ? null : fromRow(row);
}

/** Revokes a token; false where it was revoked before. */
export async function revokeToken(
  entities: Tokens,
  id: number,
  { at, by }: { at: number; by: string },
): Promise<boolean> {
  const { count } = await entities.apiToken.updateMany({
    where: { id, revokedAt: null },
    data: { revokedAt: new Date(at), revokedBy: by },
  });
  return count === 1;
}

/** Writes down that a token was used [ms]. */
export async function noteTokenUse(entities: Tokens, id: number, at: number): Promise<void> {
  await entities.apiToken.updateMany({ where: { id }, data: { lastUsedAt: new Date(at) } });
}
