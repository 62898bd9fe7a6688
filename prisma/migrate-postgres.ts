import { randomUUID } from 'node:crypto';
import { type Client, DatabaseError } from 'pg';
import type { MigrateOptions } from './migrate';
import { MigrationError } from './migration-error';
import {
  type Applied,
  type Migration,
  migrationsFolder,
  missingMigrations,
  readMigrations,
} from './migration-files';

const RECORD = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  "id" VARCHAR(36) PRIMARY KEY NOT NULL, "checksum" VARCHAR(64) NOT NULL, "finished_at" TIMESTAMPTZ,
  "migration_name" VARCHAR(255) NOT NULL, "logs" TEXT, "rolled_back_at" TIMESTAMPTZ,
  "started_at" TIMESTAMPTZ NOT NULL DEFAULT now(), "applied_steps_count" INTEGER NOT NULL DEFAULT 0)`;

/** Whoever migrates holds this lock of the database; any number that nobody else uses. */
const MIGRATION_LOCK = 7_203_941;

/** The oldest server with everything that is asked of it. */
const OLDEST_SERVER = 15;

/**
 * Applies the migrations a PostgreSQL database has not had yet, all in one transaction: it ends at the newest schema or
 * unchanged. No copy is made first: the transaction undoes what fails, and copies are the database administrator's. Safe to
 * call at every start and from several processes at once.
 *
 * @param client connected, and with no transaction open
 * @returns names of the migrations applied now
 * @throws MigrationError where the server is too old, the database has other migrations than the files, or one fails
 */
export async function migratePostgres(client: Client, options: MigrateOptions = {}): Promise<string[]> {
  const files = readMigrations(options.folder ?? migrationsFolder('postgres'));
  await refuseServer(client);
  // Most starts change nothing: they need not wait for whoever migrates.
  if (missingMigrations(await appliedPostgres(client), files).length === 0) return [];
  await client.query('BEGIN');
  try {
    await client.query('SELECT pg_advisory_xact_lock($1)', [MIGRATION_LOCK]);
    const missing = missingMigrations(await appliedPostgres(client), files);
    if (missing.length > 0) await applyAll(client, missing);
    await client.query('COMMIT');
    const applied = missing.map(({ name }) => name);
    if (applied.length > 0) options.onMigrated?.({ applied, safetyCopy: null });
    return applied;
  } catch (error) {
    await client.query('ROLLBACK').catch(() => {});
    throw error;
  }
}

/** The migrations a PostgreSQL database has had; none where it is not ours. */
export async function appliedPostgres(client: Pick<Client, 'query'>): Promise<Applied> {
  const { rows: found } = await client.query(`SELECT to_regclass('"_prisma_migrations"') IS NOT NULL AS has`);
  if (found[0].has !== true) return new Map();
  const { rows } = await client.query<{ migration_name: string; checksum: string }>(
    'SELECT migration_name, checksum FROM _prisma_migrations ORDER BY migration_name COLLATE "C"',
  );
  return new Map(rows.map((row) => [row.migration_name, row.checksum]));
}

/** Names of the tables that hold data, parts of partitioned ones left out. */
export async function dataTablesPostgres(client: Pick<Client, 'query'>): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>(
    `SELECT relname::text AS name FROM pg_class
     WHERE relnamespace = current_schema()::regnamespace AND relkind IN ('r', 'p') AND NOT relispartition
       AND relname <> '_prisma_migrations' ORDER BY relname::text COLLATE "C"`,
  );
  return rows.map(({ name }) => name);
}

async function refuseServer(client: Client): Promise<void> {
  const { rows } = await client.query<{ version: string; number: string; encoding: string }>(
    `SELECT current_setting('server_version') AS version, current_setting('server_version_num') AS number,
       current_setting('server_encoding') AS encoding`,
  );
  const { version, number, encoding } = rows[0]!;
  if (Number(number) < OLDEST_SERVER * 10_000) {
    throw new MigrationError(
      'server',
      `the server is PostgreSQL ${version}, and Cleanby needs ${OLDEST_SERVER} or newer: name a newer server in DATABASE_URL`,
    );
  }
  if (encoding !== 'UTF8') {
    throw new MigrationError(
      'server',
      `its encoding is ${encoding}, and Cleanby writes UTF8: make the database anew WITH ENCODING 'UTF8'`,
    );
  }
}

async function applyAll(client: Client, missing: readonly Migration[]): Promise<void> {
  await client.query(RECORD);
  for (const { name, sql, checksum } of missing) {
    await applyOne(client, name, sql);
    await client.query(
      `INSERT INTO _prisma_migrations (id, checksum, finished_at, migration_name, applied_steps_count)
       VALUES ($1, $2, now(), $3, 1)`,
      [randomUUID(), checksum, name],
    );
  }
}

/** Classes of errors that are the migration's own doing: data, constraints, syntax, dependent objects. */
const OWN_DOING = /^(2[1-9]|2B|42)/;

async function applyOne(client: Client, name: string, sql: string): Promise<void> {
  try {
    await client.query(sql);
  } catch (error) {
    // Full disks, missing rights and the like are not the migration's doing: those errors keep their own code.
    const isOurs =
      error instanceof DatabaseError && OWN_DOING.test(error.code ?? '') && error.code !== '42501';
    if (!isOurs) throw error;
    throw new MigrationError('failed', `Migration ${name} failed (${error.message}) and was undone`, error);
  }
}
