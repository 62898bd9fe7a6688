import type { Prisma, PrismaClient } from '@/generated/sqlite/client';

/** Somebody asked to make an account; the secret of the link is kept as its hash only. */
export type StoredInvitation = {
  id: number;
  email: string;
  name: string | null;
  role: string;
  invitedBy: string;
  /** [ms] */
  createdAt: number;
  expiresAt: number;
};

type Entities = Pick<PrismaClient, 'invitation'> | Prisma.TransactionClient;
type Row = Awaited<ReturnType<PrismaClient['invitation']['findUniqueOrThrow']>>;

function fromRow({ id, email, name, role, invitedBy, createdAt, expiresAt }: Row): StoredInvitation {
  return {
    id,
    email,
    name,
    role,
    invitedBy,
    createdAt: createdAt.getTime(),
    expiresAt: expiresAt.getTime(),
  };
}

/** Neither taken up nor withdrawn. */
const OPEN = { acceptedAt: null, withdrawnAt: null };

/** Invitations that wait for somebody, those out of date among them, the newest first. */
export async function listOpenInvitations(entities: Entities): Promise<StoredInvitation[]> {
  const rows = await entities.invitation.findMany({ where: OPEN, orderBy: { id: 'desc' } });
  return rows.map(fromRow);
}

export async function insertInvitation(
  entities: Entities,
  { secretHash, ...invitation }: Omit<StoredInvitation, 'id'> & { secretHash: string },
): Promise<StoredInvitation> {
  const { createdAt, expiresAt, ...rest } = invitation;
  const data = { ...rest, secretHash, createdAt: new Date(createdAt), expiresAt: new Date(expiresAt) };
  return fromRow(await entities.invitation.create({ data }));
}

/** The invitation of a secret that can still be taken up. */
export async function findOpenInvitation(
  entities: Entities,
  secretHash: string,
  now: number,
): Promise<StoredInvitation | null> {
  const where = { ...OPEN, secretHash, expiresAt: { gt: new Date(now) } };
  const row = await entities.invitation.findFirst({ where });
  return row === null ? null : fromRow(row);
}

/** Takes an open invitation up. @returns false where somebody else was quicker */
export async function markAccepted(entities: Entities, id: number, at: number): Promise<boolean> {
  const { count } = await entities.invitation.updateMany({
    where: { ...OPEN, id },
    data: { acceptedAt: new Date(at) },
  });
  return count === 1;
}

/** Takes open invitations back, by their number or by whom they are for. @returns those that were open */
export async function withdrawOpen(
  entities: Entities,
  which: { id: number } | { email: string },
  at: number,
): Promise<StoredInvitation[]> {
  const where = { ...OPEN, ...which };
  const rows = await entities.invitation.findMany({ where, orderBy: { id: 'asc' } });
  await entities.invitation.updateMany({ where, data: { withdrawnAt: new Date(at) } });
  return rows.map(fromRow);
}
