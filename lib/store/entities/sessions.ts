import type { Prisma, PrismaClient } from '@/generated/sqlite/client';

/** A browser in which somebody is signed in. */
export type StoredSession = {
  id: string;
  userId: string;
  /** [ms] */
  createdAt: number;
  lastUsedAt: number;
  expiresAt: number;
  address: string;
  userAgent: string;
};

type Entities = Pick<PrismaClient, 'session'> | Prisma.TransactionClient;

/** Sessions of an account that have not come to their end, the last used first. */
export async function listSessions(
  entities: Entities,
  userId: string,
  usedAfter: number,
): Promise<StoredSession[]> {
  const rows = await entities.session.findMany({
    where: { userId, updatedAt: { gt: new Date(usedAfter) }, expiresAt: { gt: new Date() } },
    orderBy: [{ updatedAt: 'desc' }, { id: 'asc' }],
  });
  return rows.map((row) => ({
    id: row.id,
    userId,
    createdAt: row.createdAt.getTime(),
    lastUsedAt: row.updatedAt.getTime(),
    expiresAt: row.expiresAt.getTime(),
    address: row.ipAddress ?? '',
    userAgent: row.userAgent ?? '',
  }));
}

/** A session as every request asks for it, with whose it is; null where it was ended. */
export async function sessionWithPerson(entities: Pick<PrismaClient, 'session'>, id: string) {
  return entities.session.findUnique({
    where: { id },
    select: {
      id: true,
      updatedAt: true,
      expiresAt: true,
      user: { select: { id: true, name: true, role: true, disabledAt: true } },
    },
  });
}

/** When each account was last used in a browser still signed in [ms]. */
export async function lastUses(entities: Pick<PrismaClient, 'session'>): Promise<Map<string, number>> {
  const rows = await entities.session.groupBy({ by: ['userId'], _max: { updatedAt: true } });
  return new Map(rows.map(({ userId, _max }) => [userId, _max.updatedAt?.getTime() ?? 0]));
}

export async function noteSessionUse(entities: Entities, id: string, at: number): Promise<void> {
  await entities.session.updateMany({ where: { id }, data: { updatedAt: new Date(at) } });
}

/** Ends sessions of an account: one of them, all, or all but one. @returns how many */
export async function deleteSessions(
  entities: Entities,
  userId: string,
  which: { id?: string; except?: string } = {},
): Promise<number> {
  const { id, except } = which;
  const { count } = await entities.session.deleteMany({
    where: { userId, id: id ?? (except === undefined ? undefined : { not: except }) },
  });
  return count;
}
