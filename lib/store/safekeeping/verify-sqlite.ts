import { closeSync, existsSync, openSync, readSync } from 'node:fs';
import Database from 'better-sqlite3';
import { AppError } from '@/lib/contract/app-error';
import { MigrationError } from '@/prisma/migration-error';
import {
  type Applied,
  appliedMigrations,
  migrationsFolder,
  missingMigrations,
  readMigrations,
} from '@/prisma/migration-files';
import { databaseError } from './database-error';
import type { Finding, Invariant, Row } from './finding';
import { INVARIANTS } from './invariants';

/** One line of a verification: what was looked at, how much of it is wrong, and the first of that. */
export type Check = { name: string; wrong: number } & Finding;

export type Verification = {
  file: string;
  /** Number of migrations the database has had. */
  migrations: number;
  checks: Check[];
  /** How many things are wrong. */
  problems: number;
};

/** At most this many problems of a check are told: a damaged database has thousands. */
const MOST_TOLD = 5;

/** What a check says where a schema has not what it looks at. */
export const NOT_HERE: Finding = { looked: 'not in this schema yet', problems: [] };

const FILE_HEAD = 'SQLite format 3\0';

/**
 * Looks a database through, as it stands at one instant and without changing it: the file, its references, its migrations,
 * and what must hold between its tables.
 *
 * @throws AppError 'database-unusable' where it cannot be opened at all, 'not-found' where there is none
 */
export function verifySqlite(path: string): Verification {
  const database = openToRead(path);
  try {
    database.exec('BEGIN');
    const integrity = named('integrity', () => integrityOf(database));
    // Tables of a damaged file cannot be looked at: what SQLite says of it is all there is.
    const rest = integrity.problems.length > 0 ? [] : contentChecks(database);
    const checks = [integrity, ...rest];
    return {
      file: path,
      migrations: integrity.problems.length > 0 ? 0 : appliedMigrations(database).size,
      checks,
      problems: checks.reduce((sum, { wrong }) => sum + wrong, 0),
    };
  } catch (error) {
    throw databaseError(error, path) ?? error;
  } finally {
    database.close();
  }
}

function contentChecks(database: Database.Database): Check[] {
  return [
    named('references', () => referencesOf(database)),
    named('migrations', () => migrationsFinding(appliedMigrations(database))),
    ...INVARIANTS.map(({ name, tables, look }) =>
      named(name, () => (hasTables(database, tables) ? answered(database, look) : NOT_HERE)),
    ),
  ];
}

/** What an invariant finds in an SQLite database. */
function answered(database: Database.Database, look: Invariant['look']): Finding {
  const { questions, finding } = look();
  for (const { sql, take } of questions) {
    for (const row of database.prepare<[], Row>(sql).iterate()) take(row);
  }
  return finding();
}

function named(name: string, look: () => Finding): Check {
  return checkOf(name, look());
}

/** A line of a verification: the first problems, and how many there are. */
export function checkOf(name: string, { looked, problems }: Finding): Check {
  const told = problems.slice(0, MOST_TOLD);
  const rest = problems.length - told.length;
  return {
    name,
    looked,
    wrong: problems.length,
    problems: rest > 0 ? [...told, `and ${rest} more`] : told,
  };
}

function openToRead(path: string): Database.Database {
  if (!existsSync(path)) throw new AppError('not-found', `There is no database ${path}`);
  try {
    refuseOtherFiles(path);
    return new Database(path, { readonly: true, fileMustExist: true });
  } catch (error) {
    throw databaseError(error, path) ?? error;
  }
}

/** An empty file is an empty database to SQLite, which is not what is meant by one. */
function refuseOtherFiles(path: string): void {
  const head = Buffer.alloc(FILE_HEAD.length);
  const file = openSync(path, 'r');
  try {
    readSync(file, head);
  } finally {
    closeSync(file);
  }
  if (head.toString('latin1') === FILE_HEAD) return;
  throw Object.assign(new Error('file is not a database'), { code: 'SQLITE_NOTADB' });
}

function integrityOf(database: Database.Database): Finding {
  let looked = 'the first pages';
  try {
    looked = `${database.pragma('page_count', { simple: true })} pages`;
    const rows = database.pragma('integrity_check') as { integrity_check: string }[];
    return { looked, problems: rows.map((row) => row.integrity_check).filter((text) => text !== 'ok') };
  } catch (error) {
    if (!/^SQLITE_(CORRUPT|NOTADB)/.test((error as { code?: string }).code ?? '')) throw error;
    return { looked, problems: [(error as Error).message] };
  }
}

function referencesOf(database: Database.Database): Finding {
  const rows = database.pragma('foreign_key_check') as {
    table: string;
    rowid: number | null;
    parent: string;
  }[];
  return {
    looked: 'every reference from one table to another',
    problems: rows.map(({ table, rowid, parent }) => `${table} row ${rowid} refers to no row of ${parent}`),
  };
}

/** Whether the migrations of a database are those of its provider's files. */
export function migrationsFinding(applied: Applied, folder = migrationsFolder()): Finding {
  if (applied.size === 0)
    return { looked: 'none', problems: ['this is no database of Cleanby: it records no migrations'] };
  try {
    const missing = missingMigrations(applied, readMigrations(folder));
    const coming = missing.length === 0 ? '' : `, ${missing.length} to come at the next start`;
    return { looked: `${applied.size} applied as their files say${coming}`, problems: [] };
  } catch (error) {
    if (error instanceof MigrationError)
      return { looked: `${applied.size} applied`, problems: [error.message] };
    throw error;
  }
}

/** Whether a schema has tables, and columns where they are named as `table.column`. */
function hasTables(database: Database.Database, tables: readonly string[]): boolean {
  const has = database.prepare('SELECT 1 FROM pragma_table_info(?) WHERE ifnull(?, name) = name');
  return tables.every((table) => {
    const [name, column = null] = table.split('.');
    return has.get(name, column) !== undefined;
  });
}
