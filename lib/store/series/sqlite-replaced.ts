import type Database from 'better-sqlite3';
import { replacedColumns, replacedRow } from './replaced-row';
import type { ReplacedRow } from './series-store';

/**
 * What a batch changed: each row as it stood before, and as the batch left it. Where a later batch has changed it again, that
 * one keeps what this batch had left; where the batch was undone, nothing of it is left.
 */
export function replacedReadings(database: Database.Database, batch: number, most: number): ReplacedRow[] {
  const rows = database
    .prepare<[number, number, number, number], (number | null)[]>(
      `SELECT ${replacedColumns()}
       FROM reading_before AS before
       LEFT JOIN reading AS now ON now.unit_id = before.unit_id AND now.time = before.time AND now.batch_id = ?
       LEFT JOIN (SELECT kept.* FROM reading_before AS kept JOIN import_batch ON id = kept.batch_id
         WHERE previous_batch_id = ? AND undone_at IS NULL) AS later
         ON later.unit_id = before.unit_id AND later.time = before.time
       WHERE before.batch_id = ? ORDER BY before.unit_id, before.time LIMIT ?`,
    )
    .raw()
    .all(batch, batch, batch, most);
  return rows.map(replacedRow);
}
