import type { Pool } from 'pg';
import {
  MOST_SINCE,
  NOMINAL_COLUMNS,
  type NominalAsked,
  NominalSearch,
  nominalPage,
  nominalSince,
  type StillSensor,
} from './nominal-search';
import { type CopyReader, copyOut } from './postgres-copy';

/** Units that are asked of at once: each comes with a few hundred readings. */
const UNITS_AT_ONCE = 64;

const COLUMNS = NOMINAL_COLUMNS.join(', ');

/** Bits of the nominal sensors of units, each before an instant [ms]. */
export async function nominalSensorsOf(
  pool: Pool,
  asked: readonly NominalAsked[],
): Promise<Map<number, number>> {
  const bits = new Map<number, number>();
  for (let at = 0; at < asked.length; at += UNITS_AT_ONCE) {
    const some = asked.slice(at, at + UNITS_AT_ONCE);
    for (const [unitId, own] of await nominalBySince(pool, some)) bits.set(unitId, own);
    const left = some.filter(({ unitId }) => !bits.has(unitId));
    for (const [unitId, own] of await nominalBySearch(pool, left)) bits.set(unitId, own);
  }
  return bits;
}

/** Of those units of which what is known and the readings since tell. */
async function nominalBySince(pool: Pool, asked: readonly NominalAsked[]): Promise<Map<number, number>> {
  const told = new Map<number, number>();
  const known = asked.flatMap(({ unitId, to, known: own }) =>
    own === null || own === undefined || own.to > to ? [] : [{ unitId, to, known: own }],
  );
  if (known.length === 0) return told;
  const values = known.map(
    ({ unitId, to, known: { to: since } }, place) => `(${place}, ${unitId}, ${bigint(since)}, ${bigint(to)})`,
  );
  const rows = await copyOut(
    pool,
    `SELECT place, since.time - before.time AS grown, ${COLUMNS}
     FROM (VALUES ${values.join(', ')}) AS asked (place, unit, since_time, to_time)
     CROSS JOIN LATERAL (SELECT time FROM reading WHERE unit_id = unit AND time < since_time
       ORDER BY time DESC LIMIT 1) AS before
     LEFT JOIN LATERAL (SELECT time, ${COLUMNS} FROM reading WHERE unit_id = unit
       AND time >= since_time AND time < to_time ORDER BY time LIMIT ${MOST_SINCE}) AS since ON true
     ORDER BY place, since.time`,
  );
  const pages = pagesOf(rows, known.length);
  for (const [place, { unitId, known: own }] of known.entries()) {
    const page = pages[place]!;
    if (page.rows.length === 0 || page.rows.length >= MOST_SINCE) continue;
    const since = nominalSince(own.bits, page.span, page.rows);
    if (since === null) continue;
    const isHeld = await hasHeld(pool, { unitId, to: own.to }, since.held);
    if (isHeld) told.set(unitId, since.bits);
  }
  return told;
}

type Held = readonly { place: number; value: number }[];

/** Whether each sensor's last value before an instant was this one, where it had any. */
async function hasHeld(pool: Pool, { unitId, to }: NominalAsked, held: Held): Promise<boolean> {
  if (held.length === 0) return true;
  const last = held.map(({ place }) => {
    const name = NOMINAL_COLUMNS[place]!;
    return `(SELECT ${name} FROM reading WHERE unit_id = $1 AND time < $2 AND ${name} IS NOT NULL
      ORDER BY time DESC LIMIT 1)`;
  });
  const { rows } = await pool.query<(number | null)[]>({
    text: `SELECT ${last.join(', ')}`,
    values: [unitId, to],
    rowMode: 'array',
  });
  return held.every(({ value }, index) => (rows[0]![index] ?? value) === value);
}

async function nominalBySearch(pool: Pool, asked: readonly NominalAsked[]): Promise<Map<number, number>> {
  const bits = new Map<number, number>();
  if (asked.length === 0) return bits;
  const pages = await newestPages(pool, asked);
  for (const [place, one] of asked.entries()) {
    const { span, rows } = pages[place]!;
    const search = new NominalSearch(span, rows);
    if (!search.isDone) await searchOn(pool, one, { search, read: nominalPage(span) });
    bits.set(one.unitId, search.bits);
  }
  return bits;
}

/** Readings of a unit, and the longest stretch of time said with them [ms]. */
type Page = { span: number; rows: Float64Array[] };

function pagesOf(rows: CopyReader, length: number): Page[] {
  const pages: Page[] = Array.from({ length }, () => ({ span: 0, rows: [] }));
  while (rows.next()) {
    const page = pages[rows.int32()!]!;
    const span = rows.int64();
    const values = Float64Array.from(NOMINAL_COLUMNS, () => rows.float64());
    // A unit without readings comes as a row of nothing.
    page.rows.push(values);
    page.span = Math.max(page.span, span ?? 0);
  }
  return pages;
}

function newestPages(pool: Pool, asked: readonly NominalAsked[]): Promise<Page[]> {
  const values = asked.map(({ unitId, to }, place) => `(${place}, ${unitId}, ${bigint(to)})`);
  const select = `SELECT place, page.time - ends.first AS since_first, ${COLUMNS}
     FROM (VALUES ${values.join(', ')}) AS asked (place, unit, to_time)
     CROSS JOIN LATERAL (SELECT
       (SELECT time FROM reading WHERE unit_id = unit AND time < to_time ORDER BY time LIMIT 1) AS first,
       (SELECT time FROM reading WHERE unit_id = unit AND time < to_time ORDER BY time DESC LIMIT 1) AS last
     ) AS ends
     CROSS JOIN LATERAL (SELECT time, ${COLUMNS} FROM reading WHERE unit_id = unit AND time < to_time
       ORDER BY time DESC LIMIT ${PAGE_ROWS}) AS page
     ORDER BY place, page.time DESC`;
  return copyOut(pool, select).then((rows) => pagesOf(rows, asked.length));
}

/** `nominalPage` in the words of the database. */
const PAGE_ROWS = `64 + 2 * ceil((ends.last - ends.first) / ${7 * 86_400_000}.0)`;

/** Goes through the rest of the record where the newest readings do not tell. */
async function searchOn(
  pool: Pool,
  { unitId, to }: NominalAsked,
  { search, read }: { search: NominalSearch; read: number },
): Promise<void> {
  const still = search.stillSensors();
  const { rows } = await pool.query<boolean[]>({
    text: `SELECT ${still.map(hasOther).join(', ')}`,
    values: [unitId, to, ...still.flatMap(({ value }) => (value === null ? [] : [value]))],
    rowMode: 'array',
  });
  still.forEach(({ place }, index) => {
    if (!rows[0]![index]) search.isConstant(place);
  });
  if (search.isDone) return;
  const rest = await copyOut(
    pool,
    `SELECT ${COLUMNS} FROM reading WHERE unit_id = ${unitId} AND time < ${bigint(to)}
     ORDER BY time DESC OFFSET ${read}`,
  );
  while (rest.next()) if (search.take(NOMINAL_COLUMNS.map(() => rest.float64()))) return;
}

/** Whether a sensor ever held another value, as one column of a query. */
function hasOther({ place, value }: StillSensor, index: number, still: readonly StillSensor[]): string {
  const name = NOMINAL_COLUMNS[place]!;
  // The first two parameters are the unit and the instant; only sensors with a value have one.
  const parameter = 3 + still.slice(0, index).filter((sensor) => sensor.value !== null).length;
  const isOther = value === null ? 'IS NOT NULL' : `<> $${parameter}::double precision`;
  return `EXISTS (SELECT 1 FROM reading WHERE unit_id = $1 AND time < $2 AND ${name} ${isOther})`;
}

/** A whole number as it may stand in a statement. @throws RangeError where it is none */
function bigint(value: number): string {
  return `${BigInt(value)}::bigint`;
}
