import { createHash, randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';

// The bundled server runs elsewhere than this file stands, so the folder is found from the project's root.
const MIGRATIONS = join(process.env.CLEANBY_ROOT ?? process.cwd(), 'prisma', 'migrations', 'sqlite');

const RECORD = `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
  "id" TEXT PRIMARY KEY NOT NULL, "checksum" TEXT NOT NULL, "finished_at" DATETIME, "migration_name" TEXT NOT NULL,
  "logs" TEXT, "rolled_back_at" DATETIME, "started_at" DATETIME NOT NULL DEFAULT current_timestamp,
  "applied_steps_count" INTEGER UNSIGNED NOT NULL DEFAULT 0)`;

/** The file behind a `file:` address. */
export function sqlitePath(databaseUrl: string): string {
  return databaseUrl.replace(/^file:/, '').replace(/\?.*$/, '');
}

/**
 * Applies the migrations a database has not had yet, all in one transaction: it ends at the newest schema or unchanged.
 * Safe to call at every start and from several processes at once.
 *
 * @returns names of the migrations applied now
 * @throws Error when a migration already applied differs from the file of its name
 */
export function migrateSqlite(databaseUrl: string): string[] {
  const path = sqlitePath(databaseUrl);
  const folder = dirname(path);
  if (!existsSync(folder)) mkdirSync(folder, { recursive: true });
  const database = new Database(path);
  try {
    database.pragma('journal_mode = WAL');
    database.pragma('busy_timeout = 10000');
    return database.transaction(() => applyMissing(database)).immediate();
  } finally {
    database.close();
  }
}

function applyMissing(database: Database.Database): string[] {
  database.exec(RECORD);
  const applied = new Map(
    database
      .prepare<[], { migration_name: string; checksum: string }>(
        'SELECT migration_name, checksum FROM _prisma_migrations',
      )
      .all()
      .map((row) => [row.migration_name, row.checksum]),
  );
  const record = database.prepare(
    `INSERT INTO _prisma_migrations (id, checksum, finished_at, migration_name, applied_steps_count)
     VALUES (?, ?, current_timestamp, ?, 1)`,
  );
  const now: string[] = [];
  for (const { name, sql, checksum } of readMigrations(MIGRATIONS)) {
    const known = applied.get(name);
    if (known === undefined) {
      database.exec(sql);
      record.run(randomUUID(), checksum, name);
      now.push(name);
    } else if (known !== checksum) {
      throw new Error(
        `Migration ${name} was applied from another text than the file holds now: restore that file.`,
      );
    }
  }
  return now;
}

function readMigrations(folder: string): { name: string; sql: string; checksum: string }[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
    .map((name) => {
      const sql = readFileSync(join(folder, name, 'migration.sql'), 'utf8');
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
    });
}
