import type { PoolClient } from 'pg';
import { countChanged, type ImportTally } from './import-tally';
import { BASIS_BITS } from './merge-row';
import type { Staged } from './postgres-staging';
import { VALUE_COLUMNS } from './value-columns';

const VALUES = VALUE_COLUMNS.join(', ');
const given = (prefix: string) => VALUE_COLUMNS.map((name) => `${prefix}.${name}`).join(', ');

/** Puts what is staged into the readings, in the caller's transaction, and counts what becomes of it. */
export async function mergeStaged(
  client: PoolClient,
  batch: number,
  staged: Staged,
  tally: ImportTally,
): Promise<void> {
  if (staged.stretches.size === 0) return;
  const rounds = staged.mayRepeat ? await numberRepeats(client) : 1;
  if (rounds === 1 && !(await isAnyStored(client, staged))) {
    tally.added = await insertAll(client, batch);
    for (const [unitId, stretch] of staged.stretches) countChanged(tally, unitId, stretch);
    return;
  }
  await client.query('ANALYZE staged_reading');
  for (let round = 1; round <= rounds; round++) {
    const source = round === 1 ? 'staged_reading' : `(SELECT * FROM repeated WHERE round = ${round})`;
    await mergeRound(client, batch, { source, tally, staged });
  }
}

/**
 * Moves every row but the first of its unit and instant to `repeated`, numbered in the order of the file.
 *
 * @returns how often the most frequent comes
 */
async function numberRepeats(client: PoolClient): Promise<number> {
  await client.query(
    `CREATE TEMP TABLE repeated ON COMMIT DROP AS SELECT * FROM (
       SELECT *, row_number() OVER (PARTITION BY unit_id, time ORDER BY ordinal) AS round FROM staged_reading
     ) AS numbered WHERE round > 1`,
  );
  const { rows } = await client.query<{ rounds: string | null }>('SELECT max(round) AS rounds FROM repeated');
  const rounds = Number(rows[0]!.rounds ?? 1);
  if (rounds === 1) return 1;
  await client.query('CREATE INDEX ON repeated (round)');
  await client.query(
    'DELETE FROM staged_reading USING repeated WHERE staged_reading.ordinal = repeated.ordinal',
  );
  return rounds;
}

/** Whether anything is stored in a stretch of the file. */
async function isAnyStored(client: PoolClient, { stretches }: Staged): Promise<boolean> {
  const units = [...stretches];
  const { rows } = await client.query<{ is: boolean }>(
    `SELECT EXISTS (
       SELECT 1 FROM unnest($1::int[], $2::bigint[], $3::bigint[]) AS stretch (unit, first, last)
       CROSS JOIN LATERAL (
         SELECT 1 FROM reading WHERE unit_id = unit AND time BETWEEN first AND last LIMIT 1) AS stored) AS is`,
    [units.map(([unit]) => unit), units.map(([, { first }]) => first), units.map(([, { last }]) => last)],
  );
  return rows[0]!.is;
}

/** @returns how many */
async function insertAll(client: PoolClient, batch: number): Promise<number> {
  const { rowCount } = await client.query(
    `INSERT INTO reading (unit_id, time, ${VALUES}, flow_basis, batch_id)
     SELECT unit_id, time, ${VALUES}, flow_basis, ${batch} FROM staged_reading`,
  );
  return rowCount ?? 0;
}

/** A value of the file that is there and is not what stands, or of another basis. */
const CHANGES = VALUE_COLUMNS.map((name, s) => {
  const bit = BASIS_BITS[s]!;
  const isOther = bit === 0 ? '' : ` OR ((given.flow_basis # stored.flow_basis) & ${bit}) <> 0`;
  return `(given.${name} IS NOT NULL AND (stored.${name} IS DISTINCT FROM given.${name}${isOther}))`;
});

/** The bit of a flow is the file's where the file has that flow. */
const MERGED_BASIS = VALUE_COLUMNS.flatMap((name, s) =>
  BASIS_BITS[s] === 0 ? [] : [{ name, bit: BASIS_BITS[s]! }],
).reduce(
  (basis, { name, bit }) =>
    `(CASE WHEN given.${name} IS NULL THEN ${basis} ELSE (${basis} & ~${bit}) | (given.flow_basis & ${bit}) END)`,
  'stored.flow_basis',
);

/** Rows of different units or instants, merged as `mergeRow` merges one. Parts of a statement see what stood before it. */
function mergeStatement(
  source: string,
  batch: number,
  { first, last }: { first: number; last: number },
): string {
  const within = `BETWEEN ${first} AND ${last}`;
  return `
    WITH merged AS MATERIALIZED (
      SELECT given.unit_id, given.time, stored.unit_id IS NULL AS is_new,
        coalesce(${CHANGES.join(' OR ')}, true) AS is_changed,
        ${CHANGES.map((changes, s) => `(stored.${VALUE_COLUMNS[s]} IS NOT NULL AND ${changes})`).join(' OR ')} AS replaces,
        ${VALUE_COLUMNS.map((name) => `coalesce(given.${name}, stored.${name}) AS ${name}`).join(', ')},
        CASE WHEN stored.unit_id IS NULL THEN given.flow_basis ELSE ${MERGED_BASIS} END AS flow_basis,
        ${VALUE_COLUMNS.map((name) => `stored.${name} AS ${name}_before`).join(', ')},
        stored.flow_basis AS flow_basis_before, stored.batch_id AS batch_before
      FROM ${source} AS given LEFT JOIN reading AS stored
        ON stored.unit_id = given.unit_id AND stored.time = given.time AND stored.time ${within}
    ), kept AS (
      INSERT INTO reading_before (batch_id, unit_id, time, ${VALUES}, flow_basis, previous_batch_id)
      SELECT ${batch}, unit_id, time, ${VALUE_COLUMNS.map((name) => `${name}_before`).join(', ')},
        flow_basis_before, batch_before
      -- A row this very batch has already written has its earlier state kept, or had none.
      FROM merged WHERE NOT is_new AND is_changed AND batch_before <> ${batch}
    ), inserted AS (
      INSERT INTO reading (unit_id, time, ${VALUES}, flow_basis, batch_id)
      SELECT unit_id, time, ${VALUES}, flow_basis, ${batch} FROM merged WHERE is_new
    ), updated AS (
      UPDATE reading SET (${VALUES}, flow_basis, batch_id) = (${given('merged')}, merged.flow_basis, ${batch})
      FROM merged WHERE NOT is_new AND is_changed AND reading.unit_id = merged.unit_id
        AND reading.time = merged.time AND reading.time ${within}
    )
    SELECT unit_id AS "unitId",
      count(*) FILTER (WHERE is_new OR is_changed AND NOT replaces) AS added,
      count(*) FILTER (WHERE NOT is_new AND replaces) AS replaced,
      count(*) FILTER (WHERE NOT is_new AND NOT is_changed) AS unchanged,
      min(time) FILTER (WHERE is_new OR is_changed) AS first,
      max(time) FILTER (WHERE is_new OR is_changed) AS last
    FROM merged GROUP BY unit_id`;
}

type MergedUnit = {
  unitId: number;
  added: string;
  replaced: string;
  unchanged: string;
  first: string | null;
  last: string | null;
};

async function mergeRound(
  client: PoolClient,
  batch: number,
  { source, tally, staged }: { source: string; tally: ImportTally; staged: Staged },
): Promise<void> {
  const stretches = [...staged.stretches.values()];
  const whole = {
    first: stretches.reduce((least, { first }) => Math.min(least, first), Number.POSITIVE_INFINITY),
    last: stretches.reduce((most, { last }) => Math.max(most, last), Number.NEGATIVE_INFINITY),
  };
  const { rows } = await client.query<MergedUnit>(mergeStatement(source, batch, whole));
  for (const row of rows) {
    tally.added += Number(row.added);
    tally.replaced += Number(row.replaced);
    tally.unchanged += Number(row.unchanged);
    if (row.first === null) continue;
    countChanged(tally, row.unitId, { first: Number(row.first), last: Number(row.last) });
  }
}
