import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3';
import { onceFree, SHORT_WAIT_MS, takeTurn } from './write-turn';

type Adapter = Awaited<ReturnType<PrismaBetterSqlite3['connect']>>;
type Query = Parameters<Adapter['queryRaw']>[0];
type Transaction = Awaited<ReturnType<Adapter['startTransaction']>>;

/** Changes nothing, and makes SQLite take the write lock: a transaction that has read first could no longer wait for it. */
const TAKE_LOCK: Query = { sql: 'UPDATE setting SET key = key WHERE 0', args: [], argTypes: [] };
const ROLLBACK: Query = { sql: 'ROLLBACK', args: [], argTypes: [] };

/**
 * Prisma's SQLite adapter with a connection to read and one to write. Whoever writes takes its turn, so that nothing lands
 * inside the transaction of somebody else, to be lost with it; whoever reads sees only what is committed.
 */
export function turnTakingSqlite(
  path: string,
): Pick<PrismaBetterSqlite3, 'provider' | 'adapterName' | 'connect'> {
  const config = { url: `file:${path}`, timeout: SHORT_WAIT_MS };
  const plain = new PrismaBetterSqlite3(config, { timestampFormat: 'unixepoch-ms' });
  return {
    provider: plain.provider,
    adapterName: plain.adapterName,
    connect: async () => {
      const [reader, writer] = [await plain.connect(), await plain.connect()];
      // What was acknowledged must outlast a loss of power, not only the end of the process.
      await writer.executeScript('PRAGMA synchronous = FULL');
      return inTurns(path, reader, writer);
    },
  };
}

function inTurns(path: string, reader: Adapter, writer: Adapter): Adapter {
  const write = async <T>(act: () => Promise<T>): Promise<T> => {
    const end = await takeTurn(path);
    try {
      return await onceFree(act);
    } finally {
      end();
    }
  };
  return {
    provider: writer.provider,
    adapterName: writer.adapterName,
    queryRaw: (query) =>
      isReading(query) ? onceFree(() => reader.queryRaw(query)) : write(() => writer.queryRaw(query)),
    executeRaw: (query) => write(() => writer.executeRaw(query)),
    executeScript: (script) => write(() => writer.executeScript(script)),
    startTransaction: async (level) => {
      const end = await takeTurn(path);
      try {
        return await begun(await writer.startTransaction(level), end);
      } catch (error) {
        end();
        throw error;
      }
    },
    dispose: async () => {
      await reader.dispose();
      await writer.dispose();
    },
  };
}

function isReading({ sql }: Query): boolean {
  return /^\s*(SELECT|PRAGMA|EXPLAIN)\b/i.test(sql);
}

/** A transaction that has the write lock, and gives the turn up with its end. */
async function begun(transaction: Transaction, end: () => void): Promise<Transaction> {
  const commit = transaction.commit.bind(transaction);
  const rollback = transaction.rollback.bind(transaction);
  transaction.commit = async () => {
    await commit();
    end();
  };
  transaction.rollback = async () => {
    // Where COMMIT itself failed, nobody has told SQLite that the transaction is over.
    await transaction.executeRaw(ROLLBACK).catch(() => {});
    await rollback();
    end();
  };
  try {
    await onceFree(() => transaction.executeRaw(TAKE_LOCK));
  } catch (error) {
    await transaction.rollback();
    throw error;
  }
  return transaction;
}
