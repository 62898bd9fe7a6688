import { databasePath } from '@/lib/store/database-path';
import { type Verification, verifySqlite } from '@/lib/store/safekeeping/verify-sqlite';
import { addressed } from './back-up';

/**
 * Looks the database through without changing it, also while others use it.
 *
 * @throws AppError 'not-found' where there is none, 'database-unusable' where it cannot even be opened
 */
export function verifyDatabase(databaseUrl = addressed()): Verification {
  return verifySqlite(databasePath(databaseUrl));
}
