import { existsSync } from 'node:fs';
import Database from 'better-sqlite3';
import type { Client } from 'pg';
import { AppError } from '@/lib/contract/app-error';
import { migrateSqlite } from '@/prisma/migrate';
import { appliedPostgres, migratePostgres } from '@/prisma/migrate-postgres';
import {
  type Applied,
  appliedMigrations,
  migrationsFolder,
  missingMigrations,
  readMigrations,
} from '@/prisma/migration-files';
import { connectedTo } from '../connected-to';
import { databaseName, databasePath, isPostgres } from '../database-path';
import { databaseError } from '../safekeeping/database-error';
import { makePartFile, removePart } from '../safekeeping/part-file';
import { putRestored, refuseData } from '../safekeeping/restore-sqlite';
import { copyTables, type MovedTable, type MoveProgress } from './copy-tables';
import { postgresSource } from './postgres-source';
import { postgresTarget } from './postgres-target';
import type { Source } from './side';
import { sqliteSource } from './sqlite-source';
import { sqliteTarget } from './sqlite-target';
import { tableShapes } from './table-shape';

export type Moved = {
  /** Both databases, without passwords. */
  from: string;
  to: string;
  tables: MovedTable[];
  /** Texts with a NUL in them, which PostgreSQL cannot hold: it was replaced by U+FFFD. */
  replacedTexts: number;
};

export type MoveRequest = { from: string; to: string; onProgress?: MoveProgress };

/**
 * Copies every row of a database into an empty one on the other kind of database, or from one server to another, and verifies
 * it there. The source is only read; a failure leaves the target as empty as it was.
 *
 * @throws AppError 'conflict' where the target holds data, 'database-unusable' with cause and remedy
 */
export async function moveDatabase(request: MoveRequest): Promise<Moved> {
  const { from, to } = request;
  const names = { from: databaseName(from), to: databaseName(to) };
  if (isPostgres(to)) return { ...names, ...(await moveToServer(request)) };
  if (isPostgres(from)) return { ...names, tables: await moveToFile(request), replacedTexts: 0 };
  throw new AppError(
    'invalid-input',
    'Both are SQLite files: make a backup of the one (npx cleanby backup) and restore it as the other',
  );
}

async function moveToServer({ from, to, onProgress }: MoveRequest): Promise<Omit<Moved, 'from' | 'to'>> {
  const texts = { replaced: 0 };
  const copy = (source: Source) =>
    connectedTo(to, async (client) => {
      await migratePostgres(client);
      const tables = await tableShapes(client);
      const target = await postgresTarget(client, { tables, name: databaseName(to) });
      const moved = await copyTables({ source, target, tables }, onProgress);
      await target.finish();
      return { tables: moved, replacedTexts: texts.replaced };
    });
  return isPostgres(from)
    ? fromServer(from, (client) => copy(postgresSource(client)))
    : fromFile(databasePath(from), texts, copy);
}

async function moveToFile({ from, to, onProgress }: MoveRequest): Promise<MovedTable[]> {
  const path = databasePath(to);
  try {
    refuseData(path);
    const part = makePartFile(path);
    try {
      const copied = await copyToFile(from, part, onProgress);
      putRestored(part, path);
      return copied;
    } finally {
      removePart(part);
    }
  } catch (error) {
    throw databaseError(error, path) ?? error;
  }
}

/** Copies a database on a server into an empty file, which is brought up to date first. */
export function copyToFile(from: string, part: string, onProgress?: MoveProgress): Promise<MovedTable[]> {
  return fromServer(from, async (client) => {
    const tables = await tableShapes(client);
    migrateSqlite(`file:${part}`, { keepsCopy: false });
    const target = sqliteTarget(part);
    try {
      const moved = await copyTables({ source: postgresSource(client), target, tables }, onProgress);
      await target.finish();
      return moved;
    } finally {
      target.close();
    }
  });
}

async function fromFile<T>(
  path: string,
  texts: { replaced: number },
  act: (source: Source) => Promise<T>,
): Promise<T> {
  if (!existsSync(path)) throw new AppError('not-found', `There is no database ${path}`);
  let database: Database.Database | null = null;
  try {
    database = new Database(path, { readonly: true, fileMustExist: true });
    database.exec('BEGIN');
    refuseOld(path, appliedMigrations(database), 'sqlite');
    return await act(sqliteSource(database, texts));
  } catch (error) {
    throw databaseError(error, path) ?? error;
  } finally {
    database?.close();
  }
}

function fromServer<T>(url: string, act: (client: Client) => Promise<T>): Promise<T> {
  return connectedTo(url, async (client) => {
    await client.query('BEGIN TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY');
    refuseOld(databaseName(url), await appliedPostgres(client), 'postgres');
    return act(client);
  });
}

/** Another schema has other columns: it is brought up to date where it is, with the safeguards there are for that. */
function refuseOld(name: string, applied: Applied, provider: 'sqlite' | 'postgres'): void {
  const files = readMigrations(migrationsFolder(provider));
  const missing = missingMigrations(applied, files);
  if (missing.length === 0) return;
  const why =
    missing.length === files.length
      ? 'it is no database of Cleanby: it records no migrations'
      : 'its schema is that of an older version: start Cleanby on it once, which brings it up to date';
  throw new AppError('database-unusable', `The database ${name} cannot be moved: ${why}`);
}
