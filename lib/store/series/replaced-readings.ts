import type Database from 'better-sqlite3';
import type { ReplacedRow } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

/**
 * What a batch changed: each row as it stood before, and as the batch left it. Where a later batch has changed it again, that
 * one keeps what this batch had left; where the batch was undone, nothing of it is left.
 */
export function replacedReadings(database: Database.Database, batch: number, most: number): ReplacedRow[] {
  const of = (table: string) => VALUE_COLUMNS.map((name) => `${table}.${name}`).join(', ');
  const rows = database
    .prepare<[number, number, number, number], (number | null)[]>(
      `SELECT before.unit_id, before.time, before.previous_batch_id, now.batch_id, later.batch_id, 
              before.flow_basis, coalesce(now.flow_basis, later.flow_basis, before.flow_basis),
              ${of('before')}, ${of('now')}, ${of('later')}
       FROM reading_before AS before
       LEFT JOIN reading AS now ON now.unit_id = before.unit_id AND now.time = before.time AND now.batch_id = ?
       LEFT JOIN (SELECT * FROM reading_before WHERE previous_batch_id = ?) AS later
         ON later.unit_id = before.unit_id AND later.time = before.time
       WHERE before.batch_id = ? ORDER BY before.unit_id, before.time LIMIT ?`,
    )
    .raw()
    .all(batch, batch, batch, most);
  return rows.map(rowOf);
}

/** Columns before those of the sensors. */
const FIRST = 7;

function rowOf(row: (number | null)[]): ReplacedRow {
  const [unitId, time, beforeBatch, now, later, basisBefore, basisAfter] = row;
  const width = VALUE_COLUMNS.length;
  const part = (index: number) => row.slice(FIRST + index * width, FIRST + (index + 1) * width);
  const after = now !== null ? part(1) : later !== null ? part(2) : null;
  return {
    unitId: unitId!,
    time: time!,
    beforeBatch: beforeBatch!,
    before: part(0),
    basisBefore: basisBefore!,
    basisAfter: basisAfter!,
    after,
    isChangedSince: now === null && later !== null,
  };
}
