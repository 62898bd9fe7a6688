import type { Prisma, PrismaClient } from '@/generated/sqlite/client';

/** Somebody with an account, as it is kept. */
export type StoredPerson = {
  id: string;
  name: string;
  email: string;
  role: string;
  /** [ms] */
  createdAt: number;
  disabledAt: number | null;
  failedSignIns: number;
  lockedUntil: number | null;
  revision: number;
};

type Entities = Pick<PrismaClient, 'user' | 'account'> | Prisma.TransactionClient;
type Row = Awaited<ReturnType<PrismaClient['user']['findUniqueOrThrow']>>;

function fromRow(row: Row): StoredPerson {
  const { id, name, email, role, failedSignIns, revision } = row;
  return {
    id,
    name,
    email,
    role,
    failedSignIns,
    revision,
    createdAt: row.createdAt.getTime(),
    disabledAt: row.disabledAt?.getTime() ?? null,
    lockedUntil: row.lockedUntil?.getTime() ?? null,
  };
}

export async function countPeople(entities: Entities): Promise<number> {
  return entities.user.count();
}

export async function listPeople(entities: Entities): Promise<StoredPerson[]> {
  const rows = await entities.user.findMany({ orderBy: [{ name: 'asc' }, { email: 'asc' }] });
  return rows.map(fromRow);
}

export async function findPerson(entities: Entities, id: string): Promise<StoredPerson | null> {
  const row = await entities.user.findUnique({ where: { id } });
  return row === null ? null : fromRow(row);
}

/** @param email in small letters, as accounts are kept */
export async function findPersonByEmail(entities: Entities, email: string): Promise<StoredPerson | null> {
  const row = await entities.user.findUnique({ where: { email } });
  return row === null ? null : fromRow(row);
}

export type NewPerson = { id: string; name: string; email: string; role: string; at: number };

export async function insertPerson(entities: Entities, { at, ...person }: NewPerson): Promise<StoredPerson> {
  const instant = new Date(at);
  const row = await entities.user.create({
    data: { ...person, emailVerified: true, createdAt: instant, updatedAt: instant },
  });
  return fromRow(row);
}

export type PersonChange = {
  name?: string;
  role?: string;
  disabledAt?: Date | null;
  failedSignIns?: number;
  lockedUntil?: Date | null;
};

/** Changes an account that still stands as it was when it was read. @returns whether it did */
export async function updatePerson(
  entities: Entities,
  { id, revision }: { id: string; revision: number },
  change: PersonChange,
): Promise<boolean> {
  const { count } = await entities.user.updateMany({
    where: { id, revision },
    data: { ...change, revision: { increment: 1 } },
  });
  return count === 1;
}

/** The kind of account at which people sign in by a password of ours. */
const PASSWORD = 'credential';

/** The hash of somebody's password; null for an account without one. */
export async function passwordHashOf(entities: Entities, userId: string): Promise<string | null> {
  const row = await entities.account.findFirst({ where: { userId, providerId: PASSWORD } });
  return row?.password ?? null;
}

/** Gives an account a password, or another one. */
export async function setPasswordHash(
  entities: Entities,
  userId: string,
  { hash, at }: { hash: string; at: number },
): Promise<void> {
  const instant = new Date(at);
  const where = { userId, providerId: PASSWORD };
  const { count } = await entities.account.updateMany({
    where,
    data: { password: hash, updatedAt: instant },
  });
  if (count > 0) return;
  const account = { ...where, id: userId, accountId: userId, password: hash };
  await entities.account.create({ data: { ...account, createdAt: instant, updatedAt: instant } });
}

/**
 * Counts an attempt to sign in before the password is looked at, so that many at once are counted too, and lets the account
 * wait if it was one too many.
 *
 * @returns attempts in a row with this one; null where the account looks at none now
 */
export async function takeAttempt(
  transaction: Prisma.TransactionClient,
  id: string,
  { now, most, waitAfter }: { now: number; most: number; waitAfter: (failures: number) => number },
): Promise<number | null> {
  const { count } = await transaction.user.updateMany({
    where: {
      id,
      failedSignIns: { lt: most },
      OR: [{ lockedUntil: null }, { lockedUntil: { lte: new Date(now) } }],
    },
    data: { failedSignIns: { increment: 1 } },
  });
  if (count === 0) return null;
  const { failedSignIns } = await transaction.user.findUniqueOrThrow({ where: { id } });
  const wait = waitAfter(failedSignIns);
  if (wait > 0) await transaction.user.update({ where: { id }, data: { lockedUntil: new Date(now + wait) } });
  return failedSignIns;
}

/** The right password, or an administrator: nothing counts against the account any more. */
export async function forgiveAttempts(entities: Entities, id: string): Promise<void> {
  await entities.user.update({ where: { id }, data: { failedSignIns: 0, lockedUntil: null } });
}

/** Administrators who can sign in, beside one account. */
export async function countOtherAdministrators(entities: Entities, id: string): Promise<number> {
  return entities.user.count({ where: { role: 'administrator', disabledAt: null, id: { not: id } } });
}

/** Who changed an account last, in the record. */
export async function lastAccountChange(
  transaction: Prisma.TransactionClient,
  email: string,
): Promise<{ actorName: string; at: number } | null> {
  const row = await transaction.changeRecord.findFirst({
    where: { subject: 'account', subjectName: email, action: 'changed' },
    orderBy: { id: 'desc' },
  });
  return row === null ? null : { actorName: row.actorName, at: row.at.getTime() };
}

/** What somebody is called is theirs to change: an administrator's edit of role or state is not overtaken by it. */
export async function renamePerson(entities: Entities, id: string, name: string): Promise<void> {
  await entities.user.update({ where: { id }, data: { name } });
}
