import { PrismaClient } from '@/generated/postgres/client';
import { migratePostgres } from '@/prisma/migrate-postgres';
import { connectedTo } from './connected-to';
import { matchingLikeSqlite } from './matching-postgres';
import type { SchemaChange, Store } from './open-store';
import { openPool } from './postgres-pool';
import { openPostgresSeries } from './series/postgres';
import { turnTakingPostgres } from './turn-taking-postgres';
import { TRANSACTION_OPTIONS } from './write-turn';

/** Opens a PostgreSQL database and brings its schema up to date. @throws what the server refuses */
export async function openPostgresStore(
  databaseUrl: string,
  onMigrated?: (change: SchemaChange) => void,
): Promise<Store> {
  // By a connection of its own: a migration may take longer than anything else is allowed to.
  await connectedTo(databaseUrl, (client) => migratePostgres(client, { onMigrated }));
  const pool = openPool(databaseUrl);
  const series = openPostgresSeries(pool);
  const client = new PrismaClient({
    adapter: turnTakingPostgres(pool),
    transactionOptions: TRANSACTION_OPTIONS,
  });
  const entities = matchingLikeSqlite(client);
  return {
    provider: 'postgresql',
    // Both clients come from one schema; what differs is the way to the database.
    entities: entities as unknown as Store['entities'],
    series,
    close: async () => {
      await series.close();
      await client.$disconnect();
      await pool.end();
    },
  };
}
