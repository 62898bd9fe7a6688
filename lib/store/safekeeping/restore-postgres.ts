import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { besideDatabase, databaseName } from '../database-path';
import { moveDatabase } from '../move/move-database';
import { makePartFile, removePart } from './part-file';
import { type Restored, soundCopy } from './restore-sqlite';
import { verifyPostgres } from './verify-postgres';

/**
 * Brings a backup back into an empty database on a server: a copy of it is checked, brought up to date and verified here, then
 * moved there and every row compared.
 *
 * @throws AppError 'conflict' where there are data already, 'not-readable' where the file is no whole backup of ours
 */
export async function restorePostgres(file: string, databaseUrl: string): Promise<Restored> {
  const place = besideDatabase(databaseUrl, 'restored');
  mkdirSync(dirname(place), { recursive: true });
  const part = makePartFile(place);
  try {
    const { migrated } = soundCopy(file, part);
    await moveDatabase({ from: `file:${part}`, to: databaseUrl });
    return { database: databaseName(databaseUrl), migrated, verification: await verifyPostgres(databaseUrl) };
  } finally {
    removePart(part);
  }
}
