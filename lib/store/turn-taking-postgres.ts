import { PrismaPg } from '@prisma/adapter-pg';
import type { Pool } from 'pg';
import { ENTITY_LOCK } from './postgres-locks';
import { takeTurn } from './write-turn';

type Plain = Awaited<ReturnType<PrismaPg['connect']>>;
/** What Prisma asks of an adapter. */
type Adapter = Omit<Plain, 'underlyingDriver' | 'client' | 'performIO' | 'onError' | 'pgOptions' | 'release'>;
type Query = Parameters<Adapter['queryRaw']>[0];
type Transaction = Awaited<ReturnType<Adapter['startTransaction']>>;

const TAKE_LOCK: Query = { sql: `SELECT pg_advisory_xact_lock(${ENTITY_LOCK})`, args: [], argTypes: [] };
const ROLLBACK: Query = { sql: 'ROLLBACK', args: [], argTypes: [] };

/** How often what lost against another transaction is tried once more. */
const TRIES = 5;

/**
 * Prisma's PostgreSQL adapter with one transaction of entities at a time, of all processes together: what a transaction has read
 * stands until it has written, as on SQLite. Within a process they wait outside of the database, so that those who wait do not
 * use up the connections of the one they wait for. Readings and results do not go this way and hold nobody up.
 */
export function turnTakingPostgres(
  pool: Pool,
): Pick<PrismaPg, 'provider' | 'adapterName'> & { connect(): Promise<Adapter> } {
  const plain = new PrismaPg(pool);
  return {
    provider: plain.provider,
    adapterName: plain.adapterName,
    connect: async () => inTurns(pool, await plain.connect()),
  };
}

function inTurns(pool: Pool, plain: Plain): Adapter {
  const place = `${pool.options.connectionString}`;
  return {
    provider: plain.provider,
    adapterName: plain.adapterName,
    queryRaw: (query) => untilNoConflict(() => plain.queryRaw(storable(query))),
    executeRaw: (query) => untilNoConflict(() => plain.executeRaw(storable(query))),
    executeScript: (script) => plain.executeScript(script),
    // No joins of whole relations as JSON: figures come as the columns they are, as on SQLite.
    getConnectionInfo: () => ({ ...plain.getConnectionInfo?.(), supportsRelationJoins: false }),
    startTransaction: async (level) => {
      const end = await takeTurn(place);
      try {
        return await begun(await plain.startTransaction(level), end);
      } catch (error) {
        end();
        throw error;
      }
    },
    dispose: () => plain.dispose(),
  };
}

/** A transaction that has the lock, and gives the turn up with its end. */
async function begun(transaction: Transaction, end: () => void): Promise<Transaction> {
  const commit = transaction.commit.bind(transaction);
  const rollback = transaction.rollback.bind(transaction);
  const queryRaw = transaction.queryRaw.bind(transaction);
  const executeRaw = transaction.executeRaw.bind(transaction);
  transaction.queryRaw = (query) => queryRaw(storable(query));
  transaction.executeRaw = (query) => executeRaw(storable(query));
  transaction.commit = async () => {
    await commit();
    end();
  };
  transaction.rollback = async () => {
    // Where COMMIT itself failed, nobody has told the server that the transaction is over.
    await transaction.executeRaw(ROLLBACK).catch(() => {});
    await rollback();
    end();
  };
  try {
    await transaction.executeRaw(TAKE_LOCK);
  } catch (error) {
    await transaction.rollback();
    throw error;
  }
  return transaction;
}

/** PostgreSQL knows no text with a NUL in it: that becomes the sign for what cannot be shown. */
function storable(query: Query): Query {
  const hasNul = query.args.some((value) => typeof value === 'string' && value.includes('\0'));
  if (!hasNul) return query;
  const args = query.args.map((value) =>
    typeof value === 'string' ? value.replaceAll('\0', '\uFFFD') : value,
  );
  return { ...query, args };
}

/** A statement by itself that lost against another transaction has done nothing, and is tried again. */
async function untilNoConflict<T>(act: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries++) {
    try {
      return await act();
    } catch (error) {
      if (tries === TRIES || !isConflict(error)) throw error;
    }
  }
}

/** A deadlock or a conflict of serialisation, as the adapter wraps it. */
function isConflict(error: unknown): boolean {
  const { cause } = (error ?? {}) as { cause?: { originalCode?: unknown } };
  return cause?.originalCode === '40P01' || cause?.originalCode === '40001';
}
