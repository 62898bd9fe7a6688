import type { Pool } from 'pg';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingColumns, type ReadingColumns, sliceReadings } from '@/lib/core/series/reading-columns';
import { type CopyReader, copyOut } from './postgres-copy';
import { partitionNames } from './postgres-partitions';
import type { ReadingSpan, ReadingStretch } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

/** Readings of stretches of units, in the order asked. */
export async function readReadingsOf(
  pool: Pool,
  stretches: readonly ReadingStretch[],
): Promise<ReadingColumns[]> {
  if (stretches.length === 0) return [];
  const rows = await copyOut(pool, stretches.length === 1 ? ofOne(stretches[0]!) : ofMany(stretches));
  const all = makeReadingColumns(rows.count());
  // Rows come by place: each stretch is a part of them.
  const ends = new Int32Array(stretches.length);
  for (let i = 0; rows.next(); i++) {
    ends[rows.int32()!] = i + 1;
    takeReading(all, i, rows);
  }
  let from = 0;
  return stretches.map((_, place) => {
    const part = sliceReadings(all, from, Math.max(from, ends[place]!));
    from += part.time.length;
    return part;
  });
}

function takeReading(columns: ReadingColumns, i: number, rows: CopyReader): void {
  columns.time[i] = rows.int64()!;
  columns.flowBasis[i] = rows.int32()!;
  for (let s = 0; s < SENSORS.length; s++) columns[SENSORS[s]!][i] = rows.float64();
}

const READING = `time, flow_basis, ${VALUE_COLUMNS.join(', ')}`;

function ofOne({ unitId, from, to }: ReadingStretch): string {
  return `SELECT 0, ${READING} FROM reading
    WHERE unit_id = ${whole(unitId)} AND time >= ${whole(from)} AND time < ${whole(to)} ORDER BY time`;
}

/** Bounds of all stretches stand in the statement, so that months outside of them are not even planned for. */
function ofMany(stretches: readonly ReadingStretch[]): string {
  const asked = stretches.map(
    ({ unitId, from, to }, place) =>
      `(${place}, ${whole(unitId)}, ${whole(from)}::bigint, ${whole(to)}::bigint)`,
  );
  const first = stretches.reduce((least, { from }) => Math.min(least, from), Number.POSITIVE_INFINITY);
  const last = stretches.reduce((most, { to }) => Math.max(most, to), Number.NEGATIVE_INFINITY);
  return `SELECT place, reading.* FROM (VALUES ${asked.join(', ')}) AS asked (place, unit, from_time, to_time)
    CROSS JOIN LATERAL (SELECT ${READING} FROM reading WHERE unit_id = unit
      AND time >= from_time AND time < to_time AND time >= ${whole(first)} AND time < ${whole(last)}
      ORDER BY time OFFSET 0) AS reading ORDER BY place, time`;
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
