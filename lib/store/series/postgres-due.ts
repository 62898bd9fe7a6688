import type { ClientBase, Pool } from 'pg';
import { DUE_ALREADY } from './mark-due';
import { transacted } from './postgres-transaction';
import type { Due } from './series-store';

type DueRow = { unit_id: number; since: string; mark: string };

/** What is done with units that are due. Whoever changes several goes by their numbers, so that no two wait for each other. */
export function openDue(pool: Pool) {
  return {
    all: async (): Promise<Map<number, Due>> => {
      const { rows } = await pool.query<DueRow>('SELECT unit_id, since, mark FROM unit_due ORDER BY unit_id');
      return new Map(rows.map((row) => [row.unit_id, { since: Number(row.since), mark: row.mark }]));
    },
    markAll: (unitIds: readonly number[], since: number) =>
      transacted(pool, (client) => markDue(client, new Map(unitIds.map((unitId) => [unitId, since])))),
  };
}

/** Marks units due, each since an instant of its own [ms], in the caller's transaction. */
export async function markDue(client: ClientBase, since: ReadonlyMap<number, number>): Promise<void> {
  await client.query(
    `INSERT INTO unit_due (unit_id, since, mark)
     SELECT unit_id, since, gen_random_uuid()::text
     FROM unnest($1::int[], $2::bigint[]) AS changed (unit_id, since) ORDER BY unit_id ${DUE_ALREADY}`,
    [[...since.keys()], [...since.values()]],
  );
}
