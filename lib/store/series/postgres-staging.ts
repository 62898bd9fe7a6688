import type { Pool, PoolClient } from 'pg';
import type { SetAsideRow } from '@/lib/contract/import-report';
import type { ImportTally, Stretch } from './import-tally';
import { CopyWriter, copyIn } from './postgres-copy';
import { monthsOf } from './postgres-partitions';
import type { ReadingRows } from './reading-rows';
import type { ImportBatch } from './series-store';
import type { Run } from './spill-file';
import { runsOf } from './staged-runs';
import { VALUE_COLUMNS } from './value-columns';

/** Tables of the connection alone, empty between imports: making them anew each time would fill the catalogue with their names. */
const STAGING = `
  CREATE TEMP TABLE IF NOT EXISTS staged_reading (
    ordinal int NOT NULL, unit_id int NOT NULL, time bigint NOT NULL,
    ${VALUE_COLUMNS.map((name) => `${name} double precision`).join(', ')}, flow_basis int NOT NULL);
  CREATE TEMP TABLE IF NOT EXISTS staged_set_aside (
    ordinal int NOT NULL, line int NOT NULL, text text NOT NULL, reason text NOT NULL, field text,
    message text NOT NULL);`;

const STAGED_COLUMNS = 4 + VALUE_COLUMNS.length;

/** A batch read to its end into tables of a connection, and what is known of it by then. */
export type Staged = {
  /** Null where the file has no readings and no rows set aside. */
  client: PoolClient | null;
  /** Months since January 1970 (UTC) that readings lie in. */
  months: Set<number>;
  /** The stretch of each unit's readings. */
  stretches: Map<number, Stretch>;
  /** Whether some reading may come more than once. */
  mayRepeat: boolean;
};

/**
 * Sends a batch to the server as it is read, without a lock on anything; a connection is only taken once there is something to
 * send. The caller gives it back: see `letGoStaged`.
 */
export async function stageBatch(pool: Pool, batch: ImportBatch, tally: ImportTally): Promise<Staged> {
  const staged: Staged = { client: null, months: new Set(), stretches: new Map(), mayRepeat: false };
  let ordinal = 0;
  try {
    for await (const run of runsOf(batch, tally)) {
      if (staged.client === null) {
        staged.client = await pool.connect();
        await staged.client.query(STAGING);
      }
      noteRows(staged, run.rows);
      await sendRun(staged.client, run, ordinal);
      ordinal += Math.max(run.rows.length, run.setAside.length);
    }
    return staged;
  } catch (error) {
    staged.client?.release(error as Error);
    throw error;
  }
}

/** Empties the tables and gives the connection back; after an error it is closed, and they go with it. */
export async function letGoStaged({ client }: Staged, error?: Error): Promise<void> {
  if (error !== undefined || client === null) return client?.release(error);
  try {
    await client.query('TRUNCATE staged_reading, staged_set_aside');
    client.release();
  } catch (failed) {
    client.release(failed as Error);
  }
}

function noteRows(staged: Staged, { length, unitId, time }: ReadingRows): void {
  for (const month of monthsOf(time.subarray(0, length))) staged.months.add(month);
  for (let i = 0; i < length; i++) {
    const known = staged.stretches.get(unitId[i]!);
    if (known === undefined) staged.stretches.set(unitId[i]!, { first: time[i]!, last: time[i]! });
    else {
      if (time[i]! <= known.last) staged.mayRepeat = true;
      known.first = Math.min(known.first, time[i]!);
      known.last = Math.max(known.last, time[i]!);
    }
  }
}

async function sendRun(client: PoolClient, { rows, setAside }: Run, ordinal: number): Promise<void> {
  if (rows.length > 0) await copyIn(client, 'staged_reading', encoded(rows, ordinal));
  if (setAside.length === 0) return;
  const column = <T>(of: (row: SetAsideRow) => T) => setAside.map(of);
  await client.query(
    `INSERT INTO staged_set_aside
     SELECT $1 + place, line, text, reason, field, message
     FROM unnest($2::int[], $3::text[], $4::text[], $5::text[], $6::text[]) WITH ORDINALITY
       AS aside (line, text, reason, field, message, place)`,
    [
      ordinal,
      column((row) => row.line),
      column((row) => row.text),
      column((row) => row.reason),
      column((row) => row.field),
      column((row) => row.message),
    ],
  );
}

function* encoded({ length, unitId, time, values, flowBasis }: ReadingRows, ordinal: number) {
  const writer = new CopyWriter(STAGED_COLUMNS);
  for (let i = 0; i < length; i++) {
    writer.row();
    writer.int32(ordinal + i);
    writer.int32(unitId[i]!);
    writer.int64(time[i]!);
    for (let s = 0; s < values.length; s++) writer.float64(values[s]![i]!);
    writer.int32(flowBasis[i]!);
    const piece = writer.piece();
    if (piece !== null) yield piece;
  }
  yield writer.end();
}
