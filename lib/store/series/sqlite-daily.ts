import type Database from 'better-sqlite3';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay } from '@/lib/core/series/slice-daily';
import { FIRST_DAY, fromBlocks, monthOf } from './daily-block';

/** Prepares reading the daily figures of a unit from a local day on. */
export function prepareDaily(
  database: Database.Database,
): (unitId: number, fromDay?: number) => DailyColumns {
  const from = database
    .prepare<[number, number], Buffer>(
      'SELECT figures FROM daily_block WHERE unit_id = ? AND month >= ? ORDER BY month',
    )
    .pluck();
  return (unitId, fromDay = FIRST_DAY) =>
    fromLocalDay(fromBlocks(from.all(unitId, monthOf(fromDay))), fromDay);
}
