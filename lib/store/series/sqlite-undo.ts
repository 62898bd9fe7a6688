import type Database from 'better-sqlite3';
import { inTurn, onceFree, SHORT_WAIT_MS } from '../write-turn';
import { prepareMarkDue } from './mark-due';
import { openSqlite } from './open-sqlite';
import { prepareRecord } from './prepare-record';
import type { ChangedBy, UndoCounts, Undone } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

/** Puts back what a batch changed, in one transaction with the record of it; null where it was undone already. */
export async function undoBatchSqlite(
  path: string,
  batch: number,
  change: ChangedBy,
): Promise<Undone | null> {
  const database = openSqlite(path);
  try {
    database.pragma(`busy_timeout = ${SHORT_WAIT_MS}`);
    const act = database.transaction(() => undo(database, batch, change));
    return await inTurn(path, () => onceFree(() => act.immediate()));
  } finally {
    database.close();
  }
}

/** What undoing a batch would do. */
export function undoCounts(database: Database.Database, batch: number): UndoCounts {
  const count = (sql: string, ...parameters: number[]) =>
    database
      .prepare(sql)
      .pluck()
      .get(...parameters) as number;
  const restored = count(
    `SELECT count(*) FROM reading_before AS before JOIN reading USING (batch_id, unit_id, time)
     WHERE before.batch_id = ?`,
    batch,
  );
  return {
    removed: count('SELECT count(*) FROM reading WHERE batch_id = ?', batch) - restored,
    restored,
    kept: count('SELECT count(*) FROM reading_before WHERE previous_batch_id = ?', batch),
  };
}

function undo(database: Database.Database, batch: number, change: ChangedBy): Undone | null {
  const source = database
    .prepare<[number, string, number], { source: string }>(
      'UPDATE import_batch SET undone_at = ?, undone_by = ? WHERE id = ? AND undone_at IS NULL RETURNING source',
    )
    .get(change.at, change.actor.name, batch)?.source;
  if (source === undefined) return null;
  const counts = undoCounts(database, batch);
  const touched = database
    .prepare<[number], { unit_id: number; since: number }>(
      'SELECT unit_id, min(time) AS since FROM reading WHERE batch_id = ? GROUP BY unit_id',
    )
    .all(batch);
  putBack(database, batch);
  const markDue = prepareMarkDue(database);
  for (const row of touched) markDue(row.unit_id, row.since);
  const record = prepareRecord(database, change);
  record({
    subject: 'import',
    name: source,
    action: 'undone',
    before: { batch },
    after: { batch, ...counts },
  });
  return { ...counts, changed: new Map(touched.map((row) => [row.unit_id, row.since])) };
}

function putBack(database: Database.Database, batch: number): void {
  const values = [...VALUE_COLUMNS, 'flow_basis'].map((name) => `${name} = before.${name}`).join(', ');
  database
    .prepare(
      `UPDATE reading SET ${values}, batch_id = before.previous_batch_id FROM reading_before AS before
       WHERE before.batch_id = ? AND reading.batch_id = before.batch_id
         AND reading.unit_id = before.unit_id AND reading.time = before.time`,
    )
    .run(batch);
  database.prepare('DELETE FROM reading WHERE batch_id = ?').run(batch);
  // What later batches keep as "before" must not bring this batch back when they are undone in their turn.
  database
    .prepare(
      `UPDATE reading_before AS later SET ${values}, previous_batch_id = before.previous_batch_id
       FROM reading_before AS before
       WHERE later.previous_batch_id = ? AND before.batch_id = ?
         AND later.unit_id = before.unit_id AND later.time = before.time`,
    )
    .run(batch, batch);
  database.prepare('DELETE FROM reading_before WHERE previous_batch_id = ?').run(batch);
}
