import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { MigrationError } from './migration-error';

export type Migration = { name: string; sql: string; checksum: string };

/** Names and checksums of the migrations a database has had, oldest first. */
export type Applied = ReadonlyMap<string, string>;

/** The folder of the migrations: the bundled server runs elsewhere than this file stands, so it is found from the project's root. */
export function migrationsFolder(provider: 'sqlite' | 'postgres' = 'sqlite'): string {
  return join(process.env.CLEANBY_ROOT ?? process.cwd(), 'prisma', 'migrations', provider);
}

/** The migrations of a folder, oldest first. */
export function readMigrations(folder = migrationsFolder()): Migration[] {
  if (!existsSync(/* turbopackIgnore: true */ folder)) return [];
  return readdirSync(/* turbopackIgnore: true */ folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
    .map((name) => {
      const sql = readFileSync(/* turbopackIgnore: true */ join(folder, name, 'migration.sql'), 'utf8');
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
    });
}

/** The migrations an SQLite database has had; none where it is not ours. */
export function appliedMigrations(database: Database.Database): Applied {
  const has = database
    .prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = '_prisma_migrations'")
    .get();
  if (has === undefined) return new Map();
  const rows = database
    .prepare<[], { migration_name: string; checksum: string }>(
      'SELECT migration_name, checksum FROM _prisma_migrations ORDER BY migration_name',
    )
    .all();
  return new Map(rows.map((row) => [row.migration_name, row.checksum]));
}

/**
 * The migrations a database still lacks.
 *
 * @throws MigrationError where it has one that is not among the files, or one of another text
 */
export function missingMigrations(applied: Applied, files: readonly Migration[]): Migration[] {
  const known = new Set(files.map(({ name }) => name));
  const newer = [...applied.keys()].filter((name) => !known.has(name));
  if (newer.length > 0) {
    throw new MigrationError(
      'newer',
      `it was written by a newer version of Cleanby (unknown migration ${newer.join(', ')}): start that version, ` +
        'or restore a backup made with this one',
    );
  }
  for (const { name, checksum } of files) {
    if ((applied.get(name) ?? checksum) !== checksum) {
      throw new MigrationError(
        'other-text',
        `Migration ${name} was applied from another text than the file holds now: restore that file`,
      );
    }
  }
  return files.filter(({ name }) => !applied.has(name));
}
