import type { Pool, PoolClient } from 'pg';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay } from '@/lib/core/series/slice-daily';
import { blocksFrom, FIRST_DAY, fromBlocks, monthOf } from './daily-block';
import { copyOut } from './postgres-copy';
import { transacted } from './postgres-transaction';
import type { DailyReplacement } from './series-store';

type Asked = { unitId: number; fromDay?: number };

/** Daily figures of units, each from a local day on. */
export async function readDailyOf(pool: Pool, asked: readonly Asked[]): Promise<Map<number, DailyColumns>> {
  const blocks = new Map<number, Buffer[]>(asked.map(({ unitId }) => [unitId, []]));
  if (asked.length > 0) {
    const months = asked.map(({ unitId, fromDay = FIRST_DAY }) => `(${unitId}, ${monthOf(fromDay)})`);
    const rows = await copyOut(
      pool,
      `SELECT unit_id, figures FROM daily_block JOIN (VALUES ${months.join(', ')}) AS asked (unit, month_from)
         ON unit_id = unit AND month >= month_from ORDER BY unit_id, month`,
    );
    while (rows.next()) blocks.get(rows.int32()!)!.push(rows.bytes()!);
  }
  return new Map(
    asked.map(({ unitId, fromDay = FIRST_DAY }) => [
      unitId,
      fromLocalDay(fromBlocks(blocks.get(unitId)!), fromDay),
    ]),
  );
}

/** Replaces daily figures from local days on, all of them or none. */
export function replaceDailyOf(pool: Pool, replacements: readonly DailyReplacement[]): Promise<void> {
  return transacted(pool, async (client) => {
    // One after the other: two of one unit build on each other.
    for (const replacement of replacements) await replace(client, replacement);
  });
}

async function replace(client: PoolClient, { unitId, fromDay, daily }: DailyReplacement): Promise<void> {
  const first = monthOf(fromDay);
  const { rows } = await client.query<{ figures: Buffer }>(
    'SELECT figures FROM daily_block WHERE unit_id = $1 AND month = $2',
    [unitId, first],
  );
  const blocks = blocksFrom(fromDay, daily, rows[0]?.figures);
  await client.query('DELETE FROM daily_block WHERE unit_id = $1 AND month >= $2', [unitId, first]);
  await client.query(
    `INSERT INTO daily_block (unit_id, month, figures)
     SELECT $1, month, figures FROM unnest($2::int[], $3::bytea[]) AS block (month, figures)`,
    [unitId, blocks.map(({ month }) => month), blocks.map(({ figures }) => figures)],
  );
}
