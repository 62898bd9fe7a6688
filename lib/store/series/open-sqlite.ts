import Database from 'better-sqlite3';

/** How long a writer waits for another before it gives up [ms]; imports hold the write lock while they parse. */
const BUSY_TIMEOUT = 60_000;

export function openSqlite(path: string): Database.Database {
  const database = new Database(path);
  database.pragma('journal_mode = WAL');
  database.pragma(`busy_timeout = ${BUSY_TIMEOUT}`);
  database.pragma('synchronous = FULL');
  database.pragma('foreign_keys = ON');
  return database;
}
