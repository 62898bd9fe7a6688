import { DEFAULT_DATABASE_URL, databasePath } from '@/lib/store/database-path';
import { type Backup, backUpSqlite } from '@/lib/store/safekeeping/back-up-sqlite';

export type BackUpRequest = {
  file: string;
  /** True: an earlier backup of that name is replaced once the new one is whole. */
  replace?: boolean;
  databaseUrl?: string;
};

/**
 * Writes a consistent copy of the database while others use it. It holds the process until it is done.
 *
 * @throws AppError 'conflict' where there is such a file, 'database-unusable' with cause and remedy
 */
export function backUp({ file, replace = false, databaseUrl = addressed() }: BackUpRequest): Backup {
  return backUpSqlite(databasePath(databaseUrl), file, { replace });
}

/** The database of DATABASE_URL, or the project's own. */
export function addressed(): string {
  return process.env.DATABASE_URL ?? DEFAULT_DATABASE_URL;
}
