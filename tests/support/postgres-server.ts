import { Client } from 'pg';
import { startEmbeddedPostgres } from '@/prisma/embedded-server';
import { migratePostgres } from '@/prisma/migrate-postgres';
import { POSTGRES_SERVER, TEMPLATE } from './postgres-databases';

/**
 * Set-up of a run of tests on PostgreSQL: one server for all of them, with a migrated database to be copied. That one sorts words
 * as people do, so that a text whose order is not its own would show.
 */
export async function setup(): Promise<() => Promise<void>> {
  const server = await startEmbeddedPostgres({
    settings: ['fsync=off', 'max_connections=300', 'shared_buffers=64MB', 'max_wal_size=4GB'],
  });
  const client = new Client(server.url);
  await client.connect();
  await client.query(
    `CREATE DATABASE ${TEMPLATE} TEMPLATE template0 ENCODING 'UTF8' LOCALE_PROVIDER icu ICU_LOCALE 'en'`,
  );
  await client.end();
  const template = new Client(server.url.replace(/\/postgres$/, `/${TEMPLATE}`));
  await template.connect();
  await migratePostgres(template);
  await template.end();
  process.env[POSTGRES_SERVER] = server.url;
  return () => server.stop();
}
