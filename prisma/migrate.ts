import { randomUUID } from 'node:crypto';
import { closeSync, existsSync, mkdirSync, openSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { MigrationError } from './migration-error';
import {
  appliedMigrations,
  type Migration,
  migrationsFolder,
  missingMigrations,
  readMigrations,
} from './migration-files';
import { keepSafetyCopy } from './safety-copy';

const RECORD = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  "id" TEXT PRIMARY KEY NOT NULL, "checksum" TEXT NOT NULL, "finished_at" DATETIME, "migration_name" TEXT NOT NULL,
  "logs" TEXT, "rolled_back_at" DATETIME, "started_at" DATETIME NOT NULL DEFAULT current_timestamp,
  "applied_steps_count" INTEGER UNSIGNED NOT NULL DEFAULT 0)`;

/** Rows of an index looked at for the planner's statistics: enough for a good plan, and no wait on a large database. */
const ANALYSIS_LIMIT = 1000;

/** What was done to bring a schema up to date, and the copy of the data as they stood before. */
export type Migrated = { applied: string[]; safetyCopy: string | null };

export type MigrateOptions = {
  /** Where the migrations are; the project's own where nobody says. */
  folder?: string;
  /** False where the data are a copy themselves. */
  keepsCopy?: boolean;
  /** Told once where something was applied. */
  onMigrated?: (migrated: Migrated) => void;
};

/** The file behind a `file:` address. */
export function sqlitePath(databaseUrl: string): string {
  return databaseUrl.replace(/^file:/, '').replace(/\?.*$/, '');
}

/**
 * Applies the migrations a database has not had yet, all in one transaction: it ends at the newest schema or unchanged.
 * A database that holds data is copied first. Safe to call at every start and from several processes at once.
 *
 * @returns names of the migrations applied now
 * @throws MigrationError where the database has other migrations than the files, or one fails
 */
export function migrateSqlite(databaseUrl: string, options: MigrateOptions = {}): string[] {
  const { keepsCopy = true } = options;
  const path = sqlitePath(databaseUrl);
  makeFile(path);
  const files = readMigrations(options.folder ?? migrationsFolder());
  const database = new Database(path);
  try {
    database.pragma('busy_timeout = 10000');
    database.pragma('journal_mode = WAL');
    // A table made anew is dropped in between: its rows' references must not be followed, or they would go with it.
    database.pragma('foreign_keys = OFF');
    // Most starts change nothing: they need not wait for whoever writes.
    if (missingMigrations(appliedMigrations(database), files).length === 0) return [];
    const migrated = database
      .transaction(() => applyMissing(database, files, keepsCopy ? path : null))
      .immediate();
    if (migrated.applied.length > 0) {
      database.pragma(`analysis_limit = ${ANALYSIS_LIMIT}`);
      database.exec('ANALYZE');
      options.onMigrated?.(migrated);
    }
    return migrated.applied;
  } finally {
    database.close();
  }
}

/** A new database holds accounts before long: only its owner may read it, whatever the umask says. */
function makeFile(path: string): void {
  mkdirSync(dirname(path), { recursive: true });
  if (!existsSync(path)) closeSync(openSync(path, 'a', 0o600));
}

function applyMissing(
  database: Database.Database,
  files: readonly Migration[],
  copied: string | null,
): Migrated {
  const missing = missingMigrations(appliedMigrations(database), files);
  if (missing.length === 0) return { applied: [], safetyCopy: null };
  const safetyCopy = copied !== null && holdsData(database) ? keepSafetyCopy(copied, missing[0]!.name) : null;
  database.exec(RECORD);
  const record = database.prepare(
    `INSERT INTO _prisma_migrations (id, checksum, finished_at, migration_name, applied_steps_count)
     VALUES (?, ?, current_timestamp, ?, 1)`,
  );
  for (const { name, sql, checksum } of missing) {
    applyOne(database, name, sql);
    record.run(randomUUID(), checksum, name);
  }
  refuseDanglingReferences(database);
  return { applied: missing.map(({ name }) => name), safetyCopy };
}

function applyOne(database: Database.Database, name: string, sql: string): void {
  try {
    database.exec(sql);
  } catch (error) {
    // Full disks and the like are not the migration's doing: those errors keep their own code.
    if ((error as { code?: string }).code !== 'SQLITE_ERROR') throw error;
    const why = (error as Error).message;
    throw new MigrationError('failed', `Migration ${name} failed (${why}) and was undone`, error);
  }
}

function refuseDanglingReferences(database: Database.Database): void {
  const dangling = database.pragma('foreign_key_check') as { table: string; parent: string }[];
  if (dangling.length === 0) return;
  const { table, parent } = dangling[0]!;
  throw new MigrationError(
    'references',
    `${dangling.length} rows would refer to nothing (the first in ${table}, to ${parent}): nothing was migrated`,
  );
}

/** Whether any table of ours has a row. */
export function holdsData(database: Database.Database): boolean {
  return dataTables(database).some(
    (table) => database.prepare(`SELECT 1 FROM "${table}" LIMIT 1`).get() !== undefined,
  );
}

/** Names of the tables that hold data: neither SQLite's own nor the record of migrations. */
export function dataTables(database: Database.Database): string[] {
  return database
    .prepare<[], { name: string }>(
      `SELECT name FROM sqlite_schema
       WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' AND name <> '_prisma_migrations' ORDER BY name`,
    )
    .all()
    .map(({ name }) => name);
}
