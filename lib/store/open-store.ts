import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3';
import { PrismaClient } from '@/generated/sqlite/client';
import { AppError } from '@/lib/contract/app-error';
import { migrateSqlite, sqlitePath } from '@/prisma/migrate';
import type { SeriesStore } from './series/series-store';
import { openSqliteSeries } from './series/sqlite';

/** An open database: entities through Prisma, readings and daily figures through the series store. */
export type Store = { entities: PrismaClient; series: SeriesStore; close(): Promise<void> };

/** Where the database is when nobody says: an SQLite file of the project. */
export const DEFAULT_DATABASE_URL = 'file:data/cleanby.db';

/**
 * Opens the database and brings its schema up to date.
 *
 * @throws AppError 'database-unusable' with the cause in words
 */
export async function openStore(databaseUrl: string): Promise<Store> {
  if (!databaseUrl.startsWith('file:')) {
    throw new AppError(
      'database-unusable',
      `DATABASE_URL must name an SQLite file, such as ${DEFAULT_DATABASE_URL}`,
    );
  }
  const path = sqlitePath(databaseUrl);
  try {
    migrateSqlite(databaseUrl);
    const entities = new PrismaClient({
      adapter: new PrismaBetterSqlite3({ url: `file:${path}` }, { timestampFormat: 'unixepoch-ms' }),
    });
    const series = openSqliteSeries(path);
    return {
      entities,
      series,
      close: async () => {
        series.close();
        await entities.$disconnect();
      },
    };
  } catch (error) {
    throw new AppError(
      'database-unusable',
      `The database ${path} cannot be used: ${(error as Error).message}`,
    );
  }
}
