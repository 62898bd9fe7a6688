import { isPostgres } from '@/lib/store/database-path';
import { backUpPostgres } from '@/lib/store/safekeeping/back-up-postgres';
import type { Backup } from '@/lib/store/safekeeping/back-up-sqlite';
import { restorePostgres } from '@/lib/store/safekeeping/restore-postgres';
import type { Restored } from '@/lib/store/safekeeping/restore-sqlite';
import { verifyPostgres } from '@/lib/store/safekeeping/verify-postgres';
import type { Verification } from '@/lib/store/safekeeping/verify-sqlite';
import { addressed, type BackUpRequest, backUp } from './back-up';
import { restore } from './restore';
import { verifyDatabase } from './verify-database';

/** `backUp` of either kind of database. */
export async function backUpAny(request: BackUpRequest): Promise<Backup> {
  const { file, replace = false, databaseUrl = addressed() } = request;
  return isPostgres(databaseUrl) ? backUpPostgres(databaseUrl, file, { replace }) : backUp(request);
}

/** `restore` into either kind of database. */
export async function restoreAny(file: string, databaseUrl = addressed()): Promise<Restored> {
  return isPostgres(databaseUrl) ? restorePostgres(file, databaseUrl) : restore(file, databaseUrl);
}

/** `verifyDatabase` of either kind. */
export async function verifyAny(databaseUrl = addressed()): Promise<Verification> {
  return isPostgres(databaseUrl) ? verifyPostgres(databaseUrl) : verifyDatabase(databaseUrl);
}
