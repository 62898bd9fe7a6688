import { statSync } from 'node:fs';
import { databaseName } from '../database-path';
import { copyToFile } from '../move/move-database';
import { type Backup, notSound, partBeside, putBackup, refusePlace } from './back-up-sqlite';
import { removePart } from './part-file';
import { verifySqlite } from './verify-sqlite';

/**
 * Copies a database on a server, as it stands at one instant and while others use it, into an SQLite file: a backup as those of
 * SQLite are, from which either kind of database is restored. Every row is read back and compared.
 *
 * @throws AppError 'conflict' where there is such a file already, 'database-unusable' with cause and remedy
 */
export async function backUpPostgres(
  databaseUrl: string,
  file: string,
  { replace }: { replace: boolean },
): Promise<Backup> {
  refusePlace(null, file, replace);
  const part = partBeside(file);
  try {
    await copyToFile(databaseUrl, part);
    const verification = verifySqlite(part);
    if (verification.problems > 0) throw notSound(databaseName(databaseUrl), verification);
    putBackup(part, file, replace);
    return { file, bytes: statSync(file).size, verification };
  } finally {
    removePart(part);
  }
}
