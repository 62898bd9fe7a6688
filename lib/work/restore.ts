import { databasePath } from '@/lib/store/database-path';
import { type Restored, restoreSqlite } from '@/lib/store/safekeeping/restore-sqlite';
import { addressed } from './back-up';

/**
 * Brings a backup back where there is no database yet, or an empty one.
 *
 * @throws AppError 'conflict' where there are data already, 'not-readable' where the file is no backup of ours
 */
export function restore(file: string, databaseUrl = addressed()): Restored {
  return restoreSqlite(file, databasePath(databaseUrl));
}
