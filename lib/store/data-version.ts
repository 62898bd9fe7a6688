import Database from 'better-sqlite3';
import { databasePath, isPostgres } from './database-path';

/** Tells whether anybody has written to a database since. */
export type DataVersion = { read(): number | null; close(): void };

/**
 * A number that is another one after every commit of any other connection, of this process or another, read in microseconds
 * (SQLite's data_version); null while the file cannot be asked. Null in place of both where the database is a server's, which keeps
 * no such number.
 *
 * @throws AppError 'database-unusable' where the address names no database
 */
export function openDataVersion(databaseUrl: string): DataVersion | null {
  if (isPostgres(databaseUrl)) return null;
  const database = new Database(databasePath(databaseUrl), { readonly: true, fileMustExist: true });
  const version = database.prepare<[], number>('PRAGMA data_version').pluck();
  const read = () => {
    try {
      return version.get()!;
    } catch {
      // Whoever needs the file itself is told what is wrong with it.
      return null;
    }
  };
  return { read, close: () => database.close() };
}
