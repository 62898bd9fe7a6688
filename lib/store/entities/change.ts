import { randomUUID } from 'node:crypto';
import type { Prisma, PrismaClient } from '@/generated/sqlite/client';
import type { Actor } from '@/lib/contract/actor';
import { bumpRevision } from '../series/revision';
import { type Change, recordChange } from './change-records';

/** Who changes something: whoever is recorded, the name it is done under, and when [ms]. */
export type Author = { actor: Actor; by: string; at: number };

/** A change being made: whatever goes through it stands or falls with it. */
export type Making = Author & {
  transaction: Prisma.TransactionClient;
  /** Writes down what becomes of what. */
  record(change: Omit<Change, 'actor' | 'at'>): Promise<void>;
  /** A unit's figures are due for analysis since an instant [ms]. */
  markDue(unitId: number, since: number): Promise<void>;
};

/** Makes a change in one transaction with the record of it and with what it leaves to be analysed: all of it or nothing. */
export function makeChange<T>(
  entities: PrismaClient,
  author: Author,
  act: (making: Making) => Promise<T>,
): Promise<T> {
  const { actor, at } = author;
  return entities.$transaction(async (transaction) => {
    const result = await act({
      ...author,
      transaction,
      record: (change) => recordChange(transaction, { ...change, actor, at }),
      markDue: (unitId, since) => markDue(transaction, unitId, BigInt(since)),
    });
    await transaction.$executeRawUnsafe(bumpRevision('entities'));
    return result;
  });
}

/** As the series store marks units due, in the words that both databases know. */
async function markDue(transaction: Prisma.TransactionClient, unitId: number, since: bigint): Promise<void> {
  await transaction.$executeRaw`INSERT INTO unit_due (unit_id, since, mark) VALUES (${unitId}, ${since}, ${randomUUID()})
    ON CONFLICT (unit_id) DO UPDATE SET mark = excluded.mark,
      since = CASE WHEN excluded.since < unit_due.since THEN excluded.since ELSE unit_due.since END`;
}
