import type Database from 'better-sqlite3';
import { inTurn, onceFree, SHORT_WAIT_MS } from '../write-turn';
import { prepareMarkDue } from './mark-due';
import { openSqlite } from './open-sqlite';
import { prepareRecord } from './prepare-record';
import { bumpRevision } from './revision';
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
  return countsOf(database, batch, touchedBy(database, batch));
}

/** Readings of a unit that are as a batch left them, within the stretch it touched [ms]. */
type Touched = { unitId: number; first: number; last: number; count: number; since: number };

/** By the primary key, as CROSS keeps the order: nothing is looked at that lies outside of the stretches. */
function touchedBy(database: Database.Database, batch: number): Touched[] {
  return database
    .prepare<[number], Touched>(
      `SELECT stretch.unit_id AS unitId, first_time AS first, last_time AS last, count(*) AS count,
              min(reading.time) AS since
       FROM import_batch_unit AS stretch CROSS JOIN reading ON reading.unit_id = stretch.unit_id
         AND reading.time BETWEEN first_time AND last_time AND reading.batch_id = stretch.batch_id
       WHERE stretch.batch_id = ? GROUP BY stretch.unit_id`,
    )
    .all(batch);
}

function countsOf(database: Database.Database, batch: number, touched: readonly Touched[]): UndoCounts {
  const count = (sql: string) => database.prepare<[number], number>(sql).pluck().get(batch)!;
  const restored = count(
    `SELECT count(*) FROM reading_before AS before JOIN reading USING (batch_id, unit_id, time)
     WHERE before.batch_id = ?`,
  );
  return {
    removed: touched.reduce((sum, unit) => sum + unit.count, 0) - restored,
    restored,
    kept: count(
      `SELECT count(*) FROM reading_before AS later JOIN import_batch ON id = later.batch_id
       WHERE previous_batch_id = ? AND undone_at IS NULL`,
    ),
  };
}

function undo(database: Database.Database, batch: number, change: ChangedBy): Undone | null {
  const source = database
    .prepare<[number, string, number], { source: string }>(
      'UPDATE import_batch SET undone_at = ?, undone_by = ? WHERE id = ? AND undone_at IS NULL RETURNING source',
    )
    .get(change.at, change.actor.name, batch)?.source;
  if (source === undefined) return null;
  const touched = touchedBy(database, batch);
  const counts = countsOf(database, batch, touched);
  putBack(database, batch, touched);
  const markDue = prepareMarkDue(database);
  for (const { unitId, since } of touched) markDue(unitId, since);
  const record = prepareRecord(database, change);
  record({
    subject: 'import',
    name: source,
    action: 'undone',
    before: { batch },
    after: { batch, ...counts },
  });
  database.exec(bumpRevision('readings'));
  return { ...counts, changed: new Map(touched.map(({ unitId, since }) => [unitId, since])) };
}

function putBack(database: Database.Database, batch: number, touched: readonly Touched[]): void {
  const values = [...VALUE_COLUMNS, 'flow_basis'].map((name) => `${name} = before.${name}`).join(', ');
  database
    .prepare(
      `UPDATE reading SET ${values}, batch_id = before.previous_batch_id FROM reading_before AS before
       WHERE before.batch_id = ? AND reading.batch_id = before.batch_id
         AND reading.unit_id = before.unit_id AND reading.time = before.time`,
    )
    .run(batch);
  const remove = database.prepare(
    'DELETE FROM reading WHERE unit_id = ? AND time BETWEEN ? AND ? AND batch_id = ?',
  );
  for (const { unitId, first, last } of touched) remove.run(unitId, first, last, batch);
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
