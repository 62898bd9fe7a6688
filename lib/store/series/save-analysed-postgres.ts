import type { Pool, PoolClient } from 'pg';
import { type AnalysedUnit, TO_BE_TOLD, type WrittenResult } from './analysis-store';
import { isAfterwards, statementToWrite } from './day-statements';
import { transacted } from './postgres-transaction';
import { RESULT_COLUMNS } from './result-columns';
import { bumpRevision } from './revision';

type Written = { unitId: number } & WrittenResult;

/** Writes worked-out units down in one transaction, each table in one statement. */
export async function saveAnalysed(
  pool: Pool,
  worker: string,
  units: readonly AnalysedUnit[],
): Promise<void> {
  await transacted(pool, async (client) => {
    const held = await stillHeld(client, worker, units);
    const written = held.flatMap(({ unitId, written: what }) => (what === null ? [] : [{ unitId, ...what }]));
    if (written.length > 0) await write(client, written);
    await settle(client, held);
    if (written.length > 0)
      for (const part of ['results', 'tellings'] as const) await client.query(bumpRevision(part));
  });
}

async function stillHeld(
  client: PoolClient,
  worker: string,
  units: readonly AnalysedUnit[],
): Promise<AnalysedUnit[]> {
  const { rows } = await client.query<{ unit_id: number }>(
    'SELECT unit_id FROM unit_due WHERE unit_id = ANY($1::int[]) AND held_by = $2 ORDER BY unit_id FOR UPDATE',
    [units.map(({ unitId }) => unitId), worker],
  );
  const held = new Set(rows.map(({ unit_id }) => unit_id));
  return units.filter(({ unitId }) => held.has(unitId));
}

/** Columns of what is written, each as one array. */
function column<T>(written: readonly Written[], of: (unit: Written) => T): T[] {
  return written.map(of);
}

const INSTANT = (name: string) => `to_timestamp(${name} / 1000) AT TIME ZONE 'UTC'`;

async function write(client: PoolClient, written: readonly Written[]): Promise<void> {
  await client.query(SAVE_RESULTS, [
    column(written, ({ unitId }) => unitId),
    column(written, ({ asOf }) => asOf),
    column(written, ({ computedAt }) => computedAt),
    column(written, ({ methodVersion }) => methodVersion),
    column(written, ({ unitVersion }) => unitVersion),
    column(written, ({ nominal }) => nominal),
    column(written, ({ basis }) => basis),
    column(written, ({ result }) => result),
    column(written, ({ trend }) => trend),
    column(written, ({ telling }) => telling),
    column(written, ({ summary }) => summary),
  ]);
  await writeDays(client, written);
  await writeStatements(client, written);
  await writeReferences(client, written);
}

const SAVE_RESULTS = `INSERT INTO unit_result (unit_id, ${RESULT_COLUMNS.join(', ')})
   SELECT unit_id, ${INSTANT('as_of')}, ${INSTANT('computed_at')}, ${RESULT_COLUMNS.slice(2).join(', ')}
   FROM unnest($1::int[], $2::double precision[], $3::double precision[], $4::int[], $5::int[], $6::int[],
     $7::text[], $8::text[], $9::text[], $10::text[], $11::text[])
     AS given(unit_id, ${RESULT_COLUMNS.join(', ')})
   ON CONFLICT (unit_id) DO UPDATE SET ${RESULT_COLUMNS.map((name) => `${name} = excluded.${name}`).join(', ')}`;

async function writeDays(client: PoolClient, written: readonly Written[]): Promise<void> {
  const changed = written.flatMap(({ unitId, daily }) => (daily === null ? [] : [{ unitId, ...daily }]));
  if (changed.length === 0) return;
  await client.query(
    `DELETE FROM daily_block USING unnest($1::int[], $2::int[]) AS given(unit_id, month)
     WHERE daily_block.unit_id = given.unit_id AND daily_block.month >= given.month`,
    [changed.map(({ unitId }) => unitId), changed.map(({ fromMonth }) => fromMonth)],
  );
  const blocks = changed.flatMap(({ unitId, blocks: own }) => own.map((block) => ({ unitId, ...block })));
  await client.query(
    `INSERT INTO daily_block (unit_id, month, figures)
     SELECT * FROM unnest($1::int[], $2::int[], $3::bytea[])`,
    [
      blocks.map(({ unitId }) => unitId),
      blocks.map(({ month }) => month),
      blocks.map(({ figures }) => Buffer.from(figures)),
    ],
  );
}

async function writeStatements(client: PoolClient, written: readonly Written[]): Promise<void> {
  const { rows } = await client.query<{ unit_id: number; has_later: boolean; statement: string | null }>(
    `SELECT given.unit_id, EXISTS (SELECT 1 FROM unit_statement AS later
        WHERE later.unit_id = given.unit_id AND later.day > given.day) AS has_later, own.statement
     FROM unnest($1::int[], $2::int[]) AS given(unit_id, day)
     LEFT JOIN unit_statement AS own ON own.unit_id = given.unit_id AND own.day = given.day`,
    [column(written, ({ unitId }) => unitId), column(written, ({ statement }) => statement.day)],
  );
  const kept = new Map(rows.map((row) => [row.unit_id, row]));
  const given = written.flatMap((unit) => {
    const { has_later: hasLater, statement: own } = kept.get(unit.unitId)!;
    const ofDay = own === null ? null : { isAfterwards: isAfterwards(own) };
    const text = statementToWrite(unit.statement, { hasLater, ofDay });
    return text === null ? [] : [{ ...unit, text }];
  });
  await client.query(
    `INSERT INTO unit_statement (unit_id, day, computed_at, method_version, statement)
     SELECT unit_id, day, ${INSTANT('computed_at')}, method_version, statement
     FROM unnest($1::int[], $2::int[], $3::double precision[], $4::int[], $5::text[])
       AS given(unit_id, day, computed_at, method_version, statement)
     ON CONFLICT (unit_id, day) DO UPDATE SET computed_at = excluded.computed_at,
       method_version = excluded.method_version, statement = excluded.statement`,
    [
      column(given, ({ unitId }) => unitId),
      column(given, ({ statement }) => statement.day),
      column(given, ({ computedAt }) => computedAt),
      column(given, ({ methodVersion }) => methodVersion),
      given.map(({ text }) => text),
    ],
  );
}

/** Where a person has accepted a reference under that number meanwhile, theirs holds and the unit is due again. */
async function writeReferences(client: PoolClient, written: readonly Written[]): Promise<void> {
  for (const { unitId, reference } of written) {
    if (reference === null) continue;
    const { factors, uncertainty, evidence } = reference;
    await client.query(
      `INSERT INTO clean_reference (unit_id, number, from_at, method, unit_version, hot_factor, wall_factor, cold_factor,
         hot_uncertainty, cold_uncertainty, evidence_from, evidence_to, readings, accepted_by, reason, created_at)
       VALUES ($1, $2, ${INSTANT('$3::double precision')}, $4, $5, $6, $7, $8, $9, $10,
         ${INSTANT('$11::double precision')}, ${INSTANT('$12::double precision')}, $13, $14, $15,
         ${INSTANT('$16::double precision')})
       ON CONFLICT (unit_id, number) DO NOTHING`,
      [
        ...[unitId, reference.number, reference.from, reference.method, reference.unitVersion],
        ...[factors.hot, factors.wall, factors.cold, uncertainty.hot, uncertainty.cold],
        ...[evidence?.from ?? null, evidence?.to ?? null, evidence?.readings ?? null],
        ...[reference.acceptedBy, reference.reason, reference.acceptedAt],
      ],
    );
  }
}

/** What units are due for afterwards, and letting them go; a change under a newer mark stays due as it is. */
async function settle(client: PoolClient, held: readonly AnalysedUnit[]): Promise<void> {
  const those = (after: AnalysedUnit['after']) => {
    const units = held.filter((unit) => unit.after === after);
    return [units.map(({ unitId }) => unitId), units.map(({ mark }) => mark)];
  };
  const given = 'unnest($1::int[], $2::text[]) AS given(unit_id, mark)';
  const isSame = 'unit_due.unit_id = given.unit_id AND unit_due.mark = given.mark';
  await client.query(`DELETE FROM unit_due USING ${given} WHERE ${isSame}`, those('done'));
  await client.query(
    `UPDATE unit_due SET since = ${TO_BE_TOLD} FROM ${given} WHERE ${isSame}`,
    those('told'),
  );
  await client.query('UPDATE unit_due SET held_by = NULL, held_until = NULL WHERE unit_id = ANY($1::int[])', [
    held.flatMap(({ unitId, after }) => (after === 'as-before' ? [] : [unitId])),
  ]);
}
