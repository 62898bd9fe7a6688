import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type Database from 'better-sqlite3';

/** So many rows leave a write-ahead log that takes seconds to bring into the file [-]. */
const MANY_ROWS = 50_000;

/** As plain text, which runs the same from the sources and from a bundle: there the address of this module leads nowhere. */
const CHECKPOINT = `
  const { createRequire } = require('node:module');
  const { workerData } = require('node:worker_threads');
  const library = () => {
    try {
      return createRequire(workerData.from)('better-sqlite3');
    } catch {
      return require('better-sqlite3');
    }
  };
  const database = new (library())(workerData.path, { fileMustExist: true });
  database.pragma('wal_checkpoint(PASSIVE)');
  database.close();
`;

/**
 * Commits what a connection has written. SQLite would bring a large write-ahead log into the file at once, within COMMIT, with the
 * whole process standing still: a thread does it afterwards. Readers go on meanwhile.
 */
export async function commitRows(database: Database.Database, rows: number): Promise<void> {
  if (rows < MANY_ROWS) {
    database.exec('COMMIT');
    return;
  }
  database.pragma('wal_autocheckpoint = 0');
  database.exec('COMMIT');
  await checkpointed(database.name);
}

/** Brings the write-ahead log of a database into its file; where that cannot be, the next who commits does it. */
export async function checkpointed(path: string): Promise<void> {
  const worker = new Worker(CHECKPOINT, {
    eval: true,
    execArgv: [],
    workerData: { path, from: import.meta.url },
  });
  await once(worker, 'exit').catch(() => {});
}
