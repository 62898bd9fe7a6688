import type Database from 'better-sqlite3';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { fromLocalDay } from '@/lib/core/series/slice-daily';
import { blocksFrom, FIRST_DAY, fromBlocks, monthOf } from './daily-block';
import type { DailyReplacement } from './series-store';

/** Prepares what is done with daily figures. */
export function prepareDaily(database: Database.Database) {
  const from = database
    .prepare<[number, number], Buffer>(
      'SELECT figures FROM daily_block WHERE unit_id = ? AND month >= ? ORDER BY month',
    )
    .pluck();
  const find = database
    .prepare<[number, number], Buffer>('SELECT figures FROM daily_block WHERE unit_id = ? AND month = ?')
    .pluck();
  const remove = database.prepare('DELETE FROM daily_block WHERE unit_id = ? AND month >= ?');
  const insert = database.prepare('INSERT INTO daily_block (unit_id, month, figures) VALUES (?, ?, ?)');
  const replace = ({ unitId, fromDay, daily }: DailyReplacement) => {
    const first = monthOf(fromDay);
    const blocks = blocksFrom(fromDay, daily, find.get(unitId, first));
    remove.run(unitId, first);
    for (const { month, figures } of blocks) insert.run(unitId, month, figures);
  };
  return {
    read: (unitId: number, fromDay = FIRST_DAY): DailyColumns =>
      fromLocalDay(fromBlocks(from.all(unitId, monthOf(fromDay))), fromDay),
    replaceAll: database.transaction((replacements: readonly DailyReplacement[]) => {
      for (const replacement of replacements) replace(replacement);
    }).immediate,
  };
}
