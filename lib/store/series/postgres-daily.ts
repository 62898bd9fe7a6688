import type { Pool } from 'pg';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay } from '@/lib/core/series/slice-daily';
import { FIRST_DAY, fromBlocks, monthOf } from './daily-block';
import { copyOut } from './postgres-copy';

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
