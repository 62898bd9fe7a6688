import type { Pool } from 'pg';
import { replacedColumns, replacedRow } from './replaced-row';
import type { ReplacedRow } from './series-store';

/** What a batch changed (as `replacedReadings` of SQLite). */
export async function replacedReadingsPostgres(
  pool: Pool,
  batch: number,
  most: number,
): Promise<ReplacedRow[]> {
  const { rows } = await pool.query<(number | string | null)[]>({
    text: `SELECT ${replacedColumns()}
       FROM reading_before AS before
       LEFT JOIN LATERAL (SELECT * FROM reading WHERE reading.unit_id = before.unit_id
         AND reading.time = before.time AND reading.batch_id = $1) AS now ON true
       LEFT JOIN LATERAL (SELECT other.* FROM reading_before AS other JOIN import_batch ON id = other.batch_id
         WHERE other.previous_batch_id = $1 AND undone_at IS NULL AND other.unit_id = before.unit_id AND other.time = before.time) AS later ON true
       WHERE before.batch_id = $1 ORDER BY before.unit_id, before.time LIMIT $2`,
    values: [batch, most],
    rowMode: 'array',
  });
  // The time comes as text, as whole numbers of 64 bits do.
  return rows.map((row) => replacedRow(row.map((value) => (value === null ? null : Number(value)))));
}
