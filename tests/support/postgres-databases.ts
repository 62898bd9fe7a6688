import { randomUUID } from 'node:crypto';
import { Client } from 'pg';

/** Variable of the environment that holds the address of the run's server. */
export const POSTGRES_SERVER = 'CLEANBY_TEST_POSTGRES';

/** The migrated database that others are copies of. */
export const TEMPLATE = 'cleanby_template';

export type PostgresDatabase = { url: string; remove(): Promise<void> };

/** A fresh database of the run's server: a copy of the migrated one, or an empty one. */
export async function postgresDatabase(from = TEMPLATE): Promise<PostgresDatabase> {
  const server = process.env[POSTGRES_SERVER];
  if (server === undefined)
    throw new Error(
      'There is no PostgreSQL server: run the tests with tests/support/postgres-server.ts as globalSetup',
    );
  const name = `test_${randomUUID().replaceAll('-', '')}`;
  await administer(server, `CREATE DATABASE ${name} TEMPLATE ${from}`);
  return {
    url: server.replace(/\/postgres$/, `/${name}`),
    remove: () => administer(server, `DROP DATABASE ${name} WITH (FORCE)`),
  };
}

/** Copies are made one at a time: the server refuses to copy a database that is being copied. */
async function administer(server: string, statement: string): Promise<void> {
  const client = new Client(server);
  await client.connect();
  try {
    await client.query('SELECT pg_advisory_lock(1)');
    await client.query(statement);
  } finally {
    await client.end();
  }
}
