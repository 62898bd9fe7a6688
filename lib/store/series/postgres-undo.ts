import type { ClientBase, Pool, PoolClient } from 'pg';
import { ENTITY_LOCK, IMPORT_LOCK, takeLock } from '../postgres-locks';
import { markDue } from './postgres-due';
import { INSTANT, recordBulk } from './postgres-record';
import { transacted } from './postgres-transaction';
import { bumpRevision } from './revision';
import type { ChangedBy, UndoCounts, Undone } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

/** Puts back what a batch changed, in one transaction with the record of it; null where it was undone already. */
export function undoBatchPostgres(pool: Pool, batch: number, change: ChangedBy): Promise<Undone | null> {
  return transacted(pool, (client) => undo(client, batch, change));
}

/** What undoing a batch would do. */
export function undoCountsPostgres(pool: Pool, batch: number): Promise<UndoCounts> {
  return transacted(pool, async (client) => countsOf(client, batch, await touchedBy(client, batch)));
}

/** Readings of a unit that are as a batch left them, within the stretch it touched [ms]. */
type Touched = { unitId: number; count: number; since: number; first: number; last: number };

/** Unit by unit by the primary key: nothing is looked at that lies outside of the stretches. */
async function touchedBy(client: ClientBase, batch: number): Promise<Touched[]> {
  type Row = { unitId: number; count: string; since: string; first: string; last: string };
  const { rows } = await client.query<Row>(
    `SELECT stretch.unit_id AS "unitId", touched.count, since, first_time AS first, last_time AS last
     FROM import_batch_unit AS stretch CROSS JOIN LATERAL (
       SELECT count(*), min(time) AS since FROM reading WHERE reading.unit_id = stretch.unit_id
         AND time BETWEEN first_time AND last_time AND reading.batch_id = stretch.batch_id) AS touched
     WHERE stretch.batch_id = $1 AND touched.count > 0 ORDER BY stretch.unit_id`,
    [batch],
  );
  return rows.map((row) => ({
    unitId: row.unitId,
    count: Number(row.count),
    since: Number(row.since),
    first: Number(row.first),
    last: Number(row.last),
  }));
}

async function countsOf(client: ClientBase, batch: number, touched: readonly Touched[]): Promise<UndoCounts> {
  const { rows } = await client.query<{ restored: string; kept: string }>(
    `SELECT (SELECT count(*) FROM reading_before JOIN reading USING (batch_id, unit_id, time)
             WHERE reading_before.batch_id = $1) AS restored,
            (SELECT count(*) FROM reading_before AS later JOIN import_batch ON id = later.batch_id
             WHERE previous_batch_id = $1 AND undone_at IS NULL) AS kept`,
    [batch],
  );
  const restored = Number(rows[0]!.restored);
  return {
    removed: touched.reduce((sum, { count }) => sum + count, 0) - restored,
    restored,
    kept: Number(rows[0]!.kept),
  };
}

async function undo(client: PoolClient, batch: number, change: ChangedBy): Promise<Undone | null> {
  await client.query('SET LOCAL statement_timeout = 0');
  await client.query(takeLock(IMPORT_LOCK));
  const { rows } = await client.query<{ source: string }>(
    `UPDATE import_batch SET undone_at = ${INSTANT('$1')}, undone_by = $2
     WHERE id = $3 AND undone_at IS NULL RETURNING source`,
    [change.at, change.actor.name, batch],
  );
  const source = rows[0]?.source;
  if (source === undefined) return null;
  const touched = await touchedBy(client, batch);
  const counts = await countsOf(client, batch, touched);
  await putBack(client, batch, touched);
  const changed = new Map(touched.map(({ unitId, since }) => [unitId, since]));
  // Whoever changes entities marks units due too.
  await client.query(takeLock(ENTITY_LOCK));
  await markDue(client, changed);
  await recordBulk(client, change, {
    subject: 'import',
    name: source,
    action: 'undone',
    before: { batch },
    after: { batch, ...counts },
  });
  await client.query(bumpRevision('readings'));
  return { ...counts, changed };
}

async function putBack(client: PoolClient, batch: number, touched: readonly Touched[]): Promise<void> {
  const values = [...VALUE_COLUMNS, 'flow_basis'].map((name) => `${name} = before.${name}`).join(', ');
  const first = touched.reduce((least, unit) => Math.min(least, unit.first), Number.MAX_SAFE_INTEGER);
  const last = touched.reduce((most, unit) => Math.max(most, unit.last), Number.MIN_SAFE_INTEGER);
  // Months that the batch did not touch need not be looked at.
  const within = `reading.time BETWEEN ${first} AND ${last}`;
  await client.query(
    `UPDATE reading SET ${values}, batch_id = before.previous_batch_id FROM reading_before AS before
     WHERE before.batch_id = $1 AND reading.batch_id = before.batch_id
       AND reading.unit_id = before.unit_id AND reading.time = before.time AND ${within}`,
    [batch],
  );
  await client.query(
    `DELETE FROM reading USING import_batch_unit AS stretch WHERE stretch.batch_id = $1
       AND reading.unit_id = stretch.unit_id AND reading.batch_id = stretch.batch_id
       AND reading.time BETWEEN first_time AND last_time AND ${within}`,
    [batch],
  );
  // What later batches keep as "before" must not bring this batch back when they are undone in their turn.
  await client.query(
    `UPDATE reading_before AS later SET ${values}, previous_batch_id = before.previous_batch_id
     FROM reading_before AS before
     WHERE later.previous_batch_id = $1 AND before.batch_id = $1
       AND later.unit_id = before.unit_id AND later.time = before.time`,
    [batch],
  );
  await client.query('DELETE FROM reading_before WHERE previous_batch_id = $1', [batch]);
}
