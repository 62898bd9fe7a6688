import { PrismaClient } from '@/generated/sqlite/client';
import { type Migrated, migrateSqlite } from '@/prisma/migrate';
import { databaseName, databasePath, isPostgres } from './database-path';
import { databaseError } from './safekeeping/database-error';
import type { SeriesStore } from './series/series-store';
import { openSqliteSeries } from './series/sqlite';
import { turnTakingSqlite } from './turn-taking-sqlite';
import { TRANSACTION_OPTIONS } from './write-turn';

/** An open database: entities through Prisma, readings and daily figures through the series store. */
export type Store = {
  provider: 'sqlite' | 'postgresql';
  entities: PrismaClient;
  series: SeriesStore;
  close(): Promise<void>;
};

/** What happened to the schema while a database was opened. */
export type SchemaChange = Migrated;

/**
 * Opens the database of an address and brings its schema up to date.
 *
 * @throws AppError 'database-unusable' with the cause in words and what to do
 */
export async function openStore(
  databaseUrl: string,
  onMigrated?: (change: SchemaChange) => void,
): Promise<Store> {
  const name = databaseName(databaseUrl);
  try {
    if (!isPostgres(databaseUrl)) return openSqliteStore(databaseUrl, onMigrated);
    // What only a server needs is not read where there is none.
    const { openPostgresStore } = await import('./open-postgres');
    return await openPostgresStore(databaseUrl, onMigrated);
  } catch (error) {
    throw databaseError(error, name) ?? error;
  }
}

function openSqliteStore(databaseUrl: string, onMigrated?: (change: SchemaChange) => void): Store {
  const path = databasePath(databaseUrl);
  migrateSqlite(databaseUrl, { onMigrated });
  const series = openSqliteSeries(path);
  const entities = new PrismaClient({
    adapter: turnTakingSqlite(path),
    transactionOptions: TRANSACTION_OPTIONS,
  });
  return {
    provider: 'sqlite',
    entities,
    series,
    close: async () => {
      await series.close();
      await entities.$disconnect();
    },
  };
}
