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
  /** A unit's figures are due for analysis since an instant [ms]; marked when all else is done. */
  markDue(unitId: number, since: number): Promise<void>;
};

/** How often a change that lost against another transaction is made once more. */
const TRIES = 5;

/**
 * Makes a change in one transaction with the record of it and with what it leaves to be analysed: all of it or nothing. Where it
 * lost against another transaction nothing of it has happened, and `act` is called once more.
 */
export async function makeChange<T>(
  entities: PrismaClient,
  author: Author,
  act: (making: Making) => Promise<T>,
): Promise<T> {
  for (let tries = 1; ; tries++) {
    try {
      return await madeOnce(entities, author, act);
    } catch (error) {
      if (tries === TRIES || !isLost(error)) throw error;
    }
  }
}

/** A deadlock or a conflict of serialisation: Prisma has a word for it, but not where a statement of our own met it. */
function isLost(error: unknown): boolean {
  const { code, meta } = (error ?? {}) as { code?: unknown; meta?: LostMeta };
  const own = meta?.driverAdapterError?.cause?.originalCode ?? meta?.code;
  return code === 'P2034' || own === '40P01' || own === '40001';
}

type LostMeta = { code?: unknown; driverAdapterError?: { cause?: { originalCode?: unknown } } };

function madeOnce<T>(
  entities: PrismaClient,
  author: Author,
  act: (making: Making) => Promise<T>,
): Promise<T> {
  const { actor, at } = author;
  return entities.$transaction(async (transaction) => {
    const due = new Map<number, number>();
    const result = await act({
      ...author,
      transaction,
      record: (change) => recordChange(transaction, { ...change, actor, at }),
      markDue: async (unitId, since) => {
        due.set(unitId, Math.min(since, due.get(unitId) ?? since));
      },
    });
    await markDue(transaction, due);
    await transaction.$executeRawUnsafe(bumpRevision('entities'));
    return result;
  });
}

/**
 * As the series store marks units due, in the words that both databases know. An analysis that writes them down has them in the
 * order of their numbers, and so do we, late: of two that wait for each other one would lose.
 */
async function markDue(
  transaction: Prisma.TransactionClient,
  due: ReadonlyMap<number, number>,
): Promise<void> {
  for (const [unitId, since] of [...due].sort(([a], [b]) => a - b))
    await transaction.$executeRaw`INSERT INTO unit_due (unit_id, since, mark)
      VALUES (${unitId}, ${BigInt(since)}, ${randomUUID()})
      ON CONFLICT (unit_id) DO UPDATE SET mark = excluded.mark,
        since = CASE WHEN excluded.since < unit_due.since THEN excluded.since ELSE unit_due.since END`;
}
