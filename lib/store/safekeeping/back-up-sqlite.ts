import { existsSync, linkSync, realpathSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { AppError } from '@/lib/contract/app-error';
import { databaseError } from './database-error';
import { makePartFile, removePart, syncToDisk } from './part-file';
import { type Verification, verifySqlite } from './verify-sqlite';

export type Backup = { file: string; bytes: number; verification: Verification };

/**
 * Copies a database as it stands at one instant, while others read and write it. The copy appears under its name only once
 * it is whole, verified and on the disk.
 *
 * @throws AppError 'conflict' where there is such a file already, 'database-unusable' with cause and remedy
 */
export function backUpSqlite(path: string, file: string, { replace }: { replace: boolean }): Backup {
  refuseTarget(path, file, replace);
  const part = partBeside(file);
  try {
    copyWhole(path, part);
    const verification = verifySqlite(part);
    if (verification.problems > 0) throw notSound(path, verification);
    putBackup(part, file, replace);
    return { file, bytes: statSync(file).size, verification };
  } finally {
    removePart(part);
  }
}

/** Gives a whole and verified copy its name, once it is on the disk. */
export function putBackup(part: string, file: string, replace: boolean): void {
  copied(part, file, () => {
    syncToDisk(part);
    if (replace) renameSync(part, file);
    else putNew(part, file);
    syncToDisk(file);
  });
}

/**
 * Gives a whole file a name nobody has yet: all at once, and never over another file.
 *
 * @throws AppError 'conflict' where somebody has taken the name
 */
export function putNew(part: string, file: string): void {
  try {
    linkSync(part, file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') throw taken(file);
    // File systems without hard links: the check and the move are two steps there.
    if (existsSync(file)) throw taken(file);
    renameSync(part, file);
    return;
  }
  rmSync(part);
}

function copyWhole(path: string, part: string): void {
  let database: Database.Database;
  try {
    database = new Database(path, { readonly: true, fileMustExist: true });
  } catch (error) {
    throw databaseError(error, path) ?? error;
  }
  try {
    // One reading transaction from beginning to end: writers go on, and nothing of theirs gets in.
    copied(path, part, () => database.prepare('VACUUM INTO ?').run(part));
  } finally {
    database.close();
  }
}

/** Disks and rights are the copy's matter, damage is that of the database it is made of. */
function copied(source: string, target: string, work: () => void): void {
  try {
    work();
  } catch (error) {
    const isDamage = /^SQLITE_(CORRUPT|NOTADB|BUSY)/.test((error as { code?: string }).code ?? '');
    throw databaseError(error, isDamage ? source : target) ?? error;
  }
}

export function partBeside(file: string): string {
  try {
    return makePartFile(file);
  } catch (error) {
    throw databaseError(error, file) ?? error;
  }
}

function refuseTarget(path: string, file: string, replace: boolean): void {
  if (!existsSync(path)) throw new AppError('not-found', `There is no database ${path}: nothing to back up`);
  refusePlace(path, file, replace);
}

/** @throws AppError where a backup cannot go under that name; `path` is the database's own file, where it has one */
export function refusePlace(path: string | null, file: string, replace: boolean): void {
  if (!existsSync(dirname(resolve(file)))) {
    throw new AppError('not-found', `There is no folder ${dirname(resolve(file))}: make it first`);
  }
  if (!existsSync(file)) return;
  const isOwn = ['', '-wal', '-shm'].some(
    (ending) =>
      path !== null &&
      existsSync(`${path}${ending}`) &&
      realpathSync(file) === realpathSync(`${path}${ending}`),
  );
  if (isOwn)
    throw new AppError('conflict', `${file} is the database itself: name another file for its backup`);
  if (statSync(file).isDirectory()) throw new AppError('conflict', `${file} is a folder: name a file in it`);
  if (!replace) throw taken(file);
}

function taken(file: string): AppError {
  return new AppError('conflict', `${file} exists already: name another file, or add --replace`);
}

export function notSound(path: string, { checks }: Verification): AppError {
  const first = checks.flatMap(({ problems }) => problems)[0];
  return new AppError(
    'database-unusable',
    `The database ${path} is not sound and was not backed up (${first}): npx cleanby verify says what is wrong, and ` +
      'earlier backups are untouched',
  );
}
