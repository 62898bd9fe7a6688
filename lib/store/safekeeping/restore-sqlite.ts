import { copyFileSync, existsSync, mkdirSync, rmSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { AppError } from '@/lib/contract/app-error';
import { holdsData, migrateSqlite } from '@/prisma/migrate';
import { MigrationError } from '@/prisma/migration-error';
import { appliedMigrations, missingMigrations, readMigrations } from '@/prisma/migration-files';
import { putNew } from './back-up-sqlite';
import { databaseError } from './database-error';
import { makePartFile, PART_ENDING, removePart, syncToDisk } from './part-file';
import { type Verification, verifySqlite } from './verify-sqlite';

export type Restored = {
  database: string;
  /** Migrations applied to what the backup held. */
  migrated: string[];
  verification: Verification;
};

/**
 * Brings a backup back as the database `path`: the copy is checked, brought up to date and verified beside it and only then
 * takes the name. Nothing that exists is overwritten; a database without a single row counts as nothing.
 *
 * @throws AppError 'conflict' where there are data already, 'not-readable' where the file is no whole backup of ours
 */
export function restoreSqlite(file: string, path: string): Restored {
  refuseFile(file);
  try {
    mkdirSync(dirname(resolve(path)), { recursive: true });
    refuseData(path);
    const part = makePartFile(path);
    try {
      const { migrated, verification } = soundCopy(file, part);
      putRestored(part, path);
      return { database: path, migrated, verification: { ...verification, file: path } };
    } finally {
      removePart(part);
    }
  } catch (error) {
    throw databaseError(error, path) ?? error;
  }
}

/** Copies a backup to an empty file, brings the copy up to date and verifies it. @throws AppError where it is no whole backup */
export function soundCopy(file: string, part: string): Omit<Restored, 'database'> {
  refuseFile(file);
  copyFileSync(file, part);
  refuseCopy(part, file);
  const migrated = migrateSqlite(`file:${part}`, { keepsCopy: false });
  const verification = verifySqlite(part);
  if (verification.problems > 0) throw notWhole(file, firstProblem(verification));
  return { migrated, verification };
}

/** Gives a whole file the name of a database that is not there yet, or empty. @throws AppError 'conflict' where it is not */
export function putRestored(part: string, path: string): void {
  syncToDisk(part);
  removeEmpty(path);
  putNew(part, path);
  syncToDisk(path);
}

function refuseFile(file: string): void {
  if (!existsSync(file)) throw new AppError('not-readable', `There is no file ${file}`);
  if (statSync(file).isDirectory())
    throw new AppError('not-readable', `${file} is a folder: name the backup in it`);
  if (file.endsWith(PART_ENDING)) {
    throw notWhole(file, 'a backup that was interrupted ends in .part');
  }
  if (existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0) {
    throw new AppError(
      'not-readable',
      `${file} is a database in use, part of it is in ${file}-wal: make a backup of it with npx cleanby backup`,
    );
  }
}

/** @throws AppError where the copy is damaged, not ours, or newer than this version */
function refuseCopy(part: string, file: string): void {
  let database: Database.Database | null = null;
  try {
    database = new Database(part, { readonly: true });
    const integrity = database.pragma('integrity_check', { simple: true });
    if (integrity !== 'ok') throw notWhole(file, String(integrity).split('\n')[0]!);
    const applied = appliedMigrations(database);
    if (applied.size === 0) throw notWhole(file, 'it is no database of Cleanby: it records no migrations');
    missingMigrations(applied, readMigrations());
  } catch (error) {
    if (error instanceof MigrationError)
      throw new AppError('not-readable', `${file} cannot be restored: ${error.message}`);
    if (/^SQLITE_(CORRUPT|NOTADB)/.test((error as { code?: string }).code ?? ''))
      throw notWhole(file, (error as Error).message);
    throw error;
  } finally {
    database?.close();
  }
}

/** @throws AppError 'conflict' where the database at `path` has a row */
export function refuseData(path: string): void {
  if (!existsSync(path)) {
    if (existsSync(`${path}-wal`) && statSync(`${path}-wal`).size > 0) throw hasData(`${path}-wal`);
    return;
  }
  const database = new Database(path, { readonly: true });
  try {
    if (holdsData(database)) throw hasData(path);
  } finally {
    database.close();
  }
}

/** Removes an empty database, made sure of once more while nobody else has it open. */
function removeEmpty(path: string): void {
  if (!existsSync(path)) return;
  const database = new Database(path, { timeout: 0 });
  try {
    // Taken before the first look at the file, this lock is had only where no other connection is open at all.
    database.pragma('locking_mode = EXCLUSIVE');
    database.exec('BEGIN EXCLUSIVE');
    if (holdsData(database)) throw hasData(path);
    for (const ending of ['', '-wal', '-shm']) rmSync(`${path}${ending}`, { force: true });
  } finally {
    database.close();
  }
}

function hasData(path: string): AppError {
  return new AppError(
    'conflict',
    `${path} holds data already and is not overwritten: name another file in DATABASE_URL, or move that one away with its ` +
      '-wal and -shm',
  );
}

function notWhole(file: string, why: string): AppError {
  return new AppError('not-readable', `${file} cannot be restored: ${why}. Take another backup`);
}

function firstProblem({ checks }: Verification): string {
  return checks.flatMap(({ name, problems }) => problems.map((problem) => `${name}: ${problem}`))[0]!;
}
