import Database from 'better-sqlite3';
import { NoSharedJournalError } from '../safekeeping/database-error';

/** How long a writer waits for another before it gives up [ms]; imports hold the write lock while they parse. */
const BUSY_TIMEOUT = 60_000;

/** Pages of 4 KiB in the journal before it is brought into the file: an analysis writes the same pages again and again. */
const CHECKPOINT_PAGES = 8192;

export function openSqlite(path: string): Database.Database {
  const database = new Database(path);
  try {
    database.pragma(`busy_timeout = ${BUSY_TIMEOUT}`);
    // SQLite says nothing where it cannot: it stays with the journal it has.
    const journal = database.pragma('journal_mode = WAL', { simple: true });
    if (journal !== 'wal') throw new NoSharedJournalError(`the journal stayed "${journal}"`);
    database.pragma('synchronous = FULL');
    database.pragma('foreign_keys = ON');
    database.pragma(`wal_autocheckpoint = ${CHECKPOINT_PAGES}`);
  } catch (error) {
    database.close();
    throw error;
  }
  return database;
}
