import type { Pool } from 'pg';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { type CopyReader, copyOut } from './postgres-copy';
import { partitionNames } from './postgres-partitions';
import type { ReadingSpan, ReadingStretch } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

/** Readings of a unit with from ≤ time < to [ms], in time order. */
export async function readReadings(
  pool: Pool,
  { unitId, from, to }: ReadingStretch,
): Promise<ReadingColumns> {
  const rows = await copyOut(
    pool,
    `SELECT time, flow_basis, ${VALUE_COLUMNS.join(', ')} FROM reading
     WHERE unit_id = ${whole(unitId)} AND time >= ${whole(from)} AND time < ${whole(to)} ORDER BY time`,
  );
  const columns = makeReadingColumns(rows.count());
  for (let i = 0; rows.next(); i++) takeReading(columns, i, rows);
  return columns;
}

function takeReading(columns: ReadingColumns, i: number, rows: CopyReader): void {
  columns.time[i] = rows.int64()!;
  columns.flowBasis[i] = rows.int32()!;
  for (let s = 0; s < SENSORS.length; s++) columns[SENSORS[s]!][i] = rows.float64();
}

/**
 * A number as it may stand in a statement; instants before and after all others may lie beyond what can be counted exactly.
 *
 * @throws RangeError where it is no whole number
 */
function whole(value: number): string {
  if (!Number.isInteger(value)) throw new RangeError(`${value} is no whole number`);
  return String(Math.min(Number.MAX_SAFE_INTEGER, Math.max(Number.MIN_SAFE_INTEGER, value)));
}

/** First and last readings of those units that have any. */
export async function readingSpans(
  pool: Pool,
  unitIds: readonly number[],
): Promise<Map<number, ReadingSpan>> {
  const { rows } = await pool.query<{ unit: number; first: string | null; last: string }>({
    name: 'reading-spans',
    text: `SELECT unit, (SELECT time FROM reading WHERE unit_id = unit ORDER BY time LIMIT 1) AS first,
             (SELECT time FROM reading WHERE unit_id = unit ORDER BY time DESC LIMIT 1) AS last
           FROM unnest($1::int[]) AS unit`,
    values: [unitIds],
  });
  return new Map(
    rows.flatMap(({ unit, first, last }) =>
      first === null ? [] : [[unit, { first: Number(first), last: Number(last) }] as const],
    ),
  );
}

/** Newest reading of each unit that has any: month by month backwards, as nearly all have theirs in the newest. */
export async function newestReadings(pool: Pool): Promise<Map<number, number>> {
  const newest = new Map<number, number>();
  const { rows: units } = await pool.query<{ id: number }>('SELECT id FROM unit ORDER BY id');
  let left = units.map(({ id }) => id);
  for (const name of await partitionNames(pool)) {
    if (left.length === 0) break;
    const { rows } = await pool.query<{ unit: number; last: string }>(
      `SELECT unit, time AS last FROM unnest($1::int[]) AS unit
       CROSS JOIN LATERAL (SELECT time FROM ${name} WHERE unit_id = unit ORDER BY time DESC LIMIT 1) AS reading`,
      [left],
    );
    for (const { unit, last } of rows) newest.set(unit, Number(last));
    if (rows.length > 0) left = left.filter((unit) => !newest.has(unit));
  }
  return newest;
}
