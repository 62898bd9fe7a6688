import type Database from 'better-sqlite3';
import { inTurn, onceFree, SHORT_WAIT_MS } from '../write-turn';
import { countsOf, type ImportTally, importDocument, newTally } from './import-tally';
import { prepareMarkDue } from './mark-due';
import { openSqlite } from './open-sqlite';
import { prepareRecord } from './prepare-record';
import { bumpRevision } from './revision';
import type { ImportBatch, ImportCounts } from './series-store';
import { commitRows } from './sqlite-checkpoint';
import { SqliteMerge } from './sqlite-merge';
import { type StagedRuns, stageRuns } from './staged-runs';

/**
 * Takes a batch of readings: reads it to its end first, and writes when nothing more can go wrong with the file. One
 * transaction on a connection of its own, so that a process killed anywhere leaves the whole batch or none of it, and other
 * work of this process never lands inside.
 */
export async function importBatchSqlite(path: string, batch: ImportBatch): Promise<ImportCounts> {
  const tally = newTally();
  const staged = await stageRuns(path, batch, tally);
  try {
    return await inTurn(path, () => takeStaged(path, batch, { staged, tally }));
  } finally {
    await staged.close();
  }
}

type Taking = { staged: StagedRuns; tally: ImportTally };

async function takeStaged(path: string, batch: ImportBatch, taking: Taking): Promise<ImportCounts> {
  const database = openSqlite(path);
  try {
    database.pragma(`busy_timeout = ${SHORT_WAIT_MS}`);
    await onceFree(() => database.exec('BEGIN IMMEDIATE'));
    const id = await takeRuns(database, batch, taking);
    if (batch.check) database.exec('ROLLBACK');
    else await commitRows(database, taking.tally.read);
    return countsOf(taking.tally, id, batch);
  } finally {
    // Closing rolls back whatever an error left open.
    database.close();
  }
}

/** @returns number of the batch */
async function takeRuns(
  database: Database.Database,
  batch: ImportBatch,
  { staged, tally }: Taking,
): Promise<number> {
  const { source, at, actor, mappingName = null, contentHash = null } = batch;
  const id = Number(
    database
      .prepare(
        `INSERT INTO import_batch
           (source, created_at, imported_by, mapping_name, content_hash, read, added, replaced, unchanged, set_aside)
         VALUES (?, ?, ?, ?, ?, 0, 0, 0, 0, 0)`,
      )
      .run(source, at, actor.name, mappingName, contentHash).lastInsertRowid,
  );
  const merge = new SqliteMerge(database, id, tally);
  const addSetAside = database.prepare(
    'INSERT INTO row_set_aside (batch_id, line, text, reason, field, message) VALUES (?, ?, ?, ?, ?, ?)',
  );
  for await (const { rows, setAside } of staged.runs) {
    await merge.take(rows);
    for (const row of setAside) addSetAside.run(id, row.line, row.text, row.reason, row.field, row.message);
  }
  closeBatch(database, id, tally);
  const after = importDocument(tally, id, batch);
  prepareRecord(database, batch)({ subject: 'import', name: source, action: 'added', after });
  database.exec(bumpRevision('readings'));
  return id;
}

function closeBatch(database: Database.Database, id: number, tally: ImportTally): void {
  const { read, added, replaced, unchanged, setAside, changed } = tally;
  database
    .prepare(
      'UPDATE import_batch SET read = ?, added = ?, replaced = ?, unchanged = ?, set_aside = ? WHERE id = ?',
    )
    .run(read, added, replaced, unchanged, setAside, id);
  const addStretch = database.prepare(
    'INSERT INTO import_batch_unit (batch_id, unit_id, first_time, last_time) VALUES (?, ?, ?, ?)',
  );
  const markDue = prepareMarkDue(database);
  for (const [unitId, { first, last }] of changed) {
    addStretch.run(id, unitId, first, last);
    markDue(unitId, first);
  }
}
