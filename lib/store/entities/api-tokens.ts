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
