import { statfsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { appliedMigrations } from '@/prisma/migration-files';

/** Below this much room [bytes] on its disk a database counts as full: the journal of one import needs it. */
const LEAST_ROOM = 16 * 2 ** 20;

export type DatabaseState = 'ok' | 'unreadable' | 'read-only' | 'disk-full';

/** Whether a database can be read and written now, and how many migrations it has had. A few milliseconds, changes nothing. */
export function probeSqlite(path: string): { state: DatabaseState; migrations: number } {
  let migrations = 0;
  let database: Database.Database | null = null;
  try {
    database = new Database(path, { fileMustExist: true, timeout: 0 });
    migrations = appliedMigrations(database).size;
    if (!isWritable(database)) return { state: 'read-only', migrations };
    return { state: hasRoom(path) ? 'ok' : 'disk-full', migrations };
  } catch {
    return { state: 'unreadable', migrations };
  } finally {
    database?.close();
  }
}

function isWritable(database: Database.Database): boolean {
  try {
    database.exec('BEGIN IMMEDIATE; ROLLBACK');
    return true;
  } catch (error) {
    const code = (error as { code?: string }).code ?? '';
    // Somebody else is writing: then it can be written.
    if (code.startsWith('SQLITE_BUSY')) return true;
    if (/^SQLITE_(READONLY|CANTOPEN|PERM)/.test(code)) return false;
    throw error;
  }
}

function hasRoom(path: string): boolean {
  const { bavail, bsize } = statfsSync(dirname(resolve(path)));
  return bavail * bsize >= LEAST_ROOM;
}
