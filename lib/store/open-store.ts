import { PrismaClient } from '@/generated/sqlite/client';
import { AppError } from '@/lib/contract/app-error';
import { type Migrated, migrateSqlite, sqlitePath } from '@/prisma/migrate';
import { databaseError } from './safekeeping/database-error';
import type { SeriesStore } from './series/series-store';
import { openSqliteSeries } from './series/sqlite';
import { turnTakingSqlite } from './turn-taking-sqlite';
import { LONGEST_WAIT_MS } from './write-turn';

/** An open database: entities through Prisma, readings and daily figures through the series store. */
export type Store = { entities: PrismaClient; series: SeriesStore; close(): Promise<void> };

/** Where the database is when nobody says: an SQLite file of the project. */
export const DEFAULT_DATABASE_URL = 'file:data/cleanby.db';

/** What happened to the schema while a database was opened. */
export type SchemaChange = Migrated;

/** The file behind DATABASE_URL. @throws AppError 'database-unusable' where it names none */
export function databasePath(databaseUrl: string): string {
  if (databaseUrl.startsWith('file:') && sqlitePath(databaseUrl) !== '') return sqlitePath(databaseUrl);
  throw new AppError(
    'database-unusable',
    `DATABASE_URL must name an SQLite file, such as ${DEFAULT_DATABASE_URL}`,
  );
}

/**
 * Opens the database and brings its schema up to date.
 *
 * @throws AppError 'database-unusable' with the cause in words and what to do
 */
export async function openStore(
  databaseUrl: string,
  onMigrated?: (change: SchemaChange) => void,
): Promise<Store> {
  const path = databasePath(databaseUrl);
  try {
    migrateSqlite(databaseUrl, { onMigrated });
    const series = openSqliteSeries(path);
    const entities = new PrismaClient({
      adapter: turnTakingSqlite(path),
      transactionOptions: { maxWait: LONGEST_WAIT_MS, timeout: LONGEST_WAIT_MS },
    });
    return {
      entities,
      series,
      close: async () => {
        series.close();
        await entities.$disconnect();
      },
    };
  } catch (error) {
    throw databaseError(error, path) ?? error;
  }
}
