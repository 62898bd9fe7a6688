import type { Pool } from 'pg';
import {
  type AnalysisStore,
  type KnownResult,
  type Phase,
  SET_ASIDE,
  type StoredTelling,
  type TakenUnit,
  type Taking,
  TO_BE_TOLD,
} from './analysis-store';
import { saveAnalysed } from './save-analysed-postgres';
import { standings } from './standings-postgres';

const CHANGED: Record<Phase, string> = { own: `since < ${TO_BE_TOLD}`, told: `since >= ${TO_BE_TOLD}` };
/** Leases go by the clock of the database, whatever those of the machines that work say [ms]. */
const NOW = '(extract(epoch FROM clock_timestamp()) * 1000)::bigint';
const IS_FREE = `(held_until IS NULL OR held_until <= ${NOW})`;
const IS_WAITED_FOR = `(held_by IS DISTINCT FROM '${SET_ASIDE}' OR held_until <= ${NOW})`;
/**
 * What a process holds, locked by the numbers of the units as whoever else changes several does. First parameter: its name.
 */
const IS_HELD = `unit_id IN (SELECT unit_id FROM unit_due WHERE held_by = $1 ORDER BY unit_id FOR UPDATE)`;
/** First parameter: numbers of units, or null for all. */
const AMONG = '($1::int[] IS NULL OR unit_id = ANY($1::int[]))';

/** Analysis over PostgreSQL by any number of processes: whoever takes units passes over those that another is just taking. */
export function openPostgresAnalysis(pool: Pool): AnalysisStore {
  const rows = async <Row extends object>(text: string, values: unknown[] = []): Promise<Row[]> =>
    (await pool.query<Row>(text, values)).rows;
  return {
    takeDue: (taking) => takeDue(pool, taking),
    holdOn: async (worker, leaseMs) => {
      await rows(`UPDATE unit_due SET held_until = ${NOW} + $2 WHERE ${IS_HELD}`, [worker, leaseMs]);
    },
    letGo: async (worker) => {
      await rows(`UPDATE unit_due SET held_by = NULL, held_until = NULL WHERE ${IS_HELD}`, [worker]);
    },
    workers: async () => {
      const found = await rows<{ worker: string }>(
        `SELECT DISTINCT held_by AS worker FROM unit_due WHERE held_by IS NOT NULL AND held_by <> '${SET_ASIDE}'`,
      );
      return found.map(({ worker }) => worker);
    },
    setAside: async (worker, unitIds, forMs) => {
      await rows(
        `UPDATE unit_due SET held_by = '${SET_ASIDE}', held_until = ${NOW} + $3
         WHERE unit_id = ANY($2::int[]) AND ${IS_HELD}`,
        [worker, unitIds, forMs],
      );
    },
    dueCounts: async (of) => {
      const [counts] = await rows<Record<Phase, number>>(
        `SELECT count(*) FILTER (WHERE ${CHANGED.own})::int AS own,
                count(*) FILTER (WHERE ${CHANGED.told})::int AS told
         FROM unit_due WHERE ${AMONG} AND ${IS_WAITED_FOR}`,
        [of],
      );
      return counts!;
    },
    standings: () => standings(pool),
    tellings: () =>
      rows<StoredTelling>(
        `SELECT unit_id AS "unitId", (extract(epoch FROM as_of) * 1000)::double precision AS "asOf",
                method_version AS "methodVersion", telling
         FROM unit_result WHERE telling IS NOT NULL ORDER BY unit_id`,
      ),
    tellingsRevision: async () => {
      const [found] = await rows<{ number: number }>(
        "SELECT number::double precision AS number FROM data_revision WHERE name = 'tellings'",
      );
      return found?.number ?? 0;
    },
    knownResults: async (unitIds) => {
      const found = await rows<KnownResult>(KNOWN, [unitIds]);
      return new Map(found.map((known) => [known.unitId, known]));
    },
    saveAnalysed: (worker, units) => saveAnalysed(pool, worker, units),
  };
}

const KNOWN = `SELECT unit_id AS "unitId", (extract(epoch FROM as_of) * 1000)::double precision AS "asOf",
     method_version AS "methodVersion", unit_version AS "unitVersion",
     nominal, basis, trend FROM unit_result WHERE unit_id = ANY($1::int[])`;

async function takeDue(pool: Pool, { worker, phase, most, leaseMs, of }: Taking): Promise<TakenUnit[]> {
  // Not NOT EXISTS: where many have just been worked out, the database expects to find one soon and reads all in vain.
  const isLast = `(SELECT min(since) FROM unit_due WHERE ${AMONG} AND ${IS_WAITED_FOR}) >= ${TO_BE_TOLD}`;
  const { rows } = await pool.query<TakenUnit>(
    `UPDATE unit_due SET held_by = $2, held_until = ${NOW} + $3 WHERE unit_id IN (
       SELECT unit_id FROM unit_due WHERE ${CHANGED[phase]} AND ${AMONG} AND ${IS_FREE}
         ${phase === 'told' ? `AND ${isLast}` : ''}
       ORDER BY since, unit_id LIMIT $4 FOR UPDATE SKIP LOCKED)
     RETURNING unit_id AS "unitId", since::double precision AS since, mark`,
    [of, worker, leaseMs, most],
  );
  return rows.sort((a, b) => a.unitId - b.unitId);
}
