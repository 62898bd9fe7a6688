import type Database from 'better-sqlite3';
import { judgeNominal } from '@/lib/core/checks/nominal-sensors';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import { fromLocalDay, joinDaily, upToLocalDay } from '@/lib/core/series/slice-daily';
import { inTurn, onceFree, SHORT_WAIT_MS } from '../write-turn';
import { columnName } from './column-name';
import { fromBlocks, monthOf, toBlocks } from './daily-block';
import { prepareMarkDue } from './mark-due';
import { openSqlite } from './open-sqlite';
import { replacedReadings } from './replaced-readings';
import type { Due, SeriesStore } from './series-store';
import { importBatchSqlite } from './sqlite-import';
import { undoBatchSqlite, undoCounts } from './sqlite-undo';

/** The series store over one SQLite file. */
export function openSqliteSeries(path: string): SeriesStore {
  const database = openSqlite(path);
  // Whoever would wait longer waits outside of SQLite, where the process goes on.
  database.pragma(`busy_timeout = ${SHORT_WAIT_MS}`);
  const write = <T>(act: () => T) => inTurn(path, () => onceFree(act));
  const due = database.prepare<[], { unit_id: number } & Due>('SELECT unit_id, since, mark FROM unit_due');
  const markDue = prepareMarkDue(database);
  const clearDue = database.prepare('DELETE FROM unit_due WHERE unit_id = ? AND mark = ?');
  const markAll = database.transaction((unitIds: readonly number[], since: number) => {
    for (const unitId of unitIds) markDue(unitId, since);
  }).immediate;
  const clearAll = database.transaction((marks: ReadonlyMap<number, string>) => {
    for (const [unitId, mark] of marks) clearDue.run(unitId, mark);
  }).immediate;
  const postponeDue = database.prepare('UPDATE unit_due SET since = ? WHERE unit_id = ? AND mark = ?');
  const span = database.prepare<[number], { first: number | null; last: number; count: number }>(
    'SELECT min(time) AS first, max(time) AS last, count(*) AS count FROM reading WHERE unit_id = ?',
  );
  const newest = database.prepare<[], { id: number; last: number | null }>(
    'SELECT id, (SELECT max(time) FROM reading WHERE unit_id = unit.id) AS last FROM unit',
  );
  return {
    importBatch: (batch) => importBatchSqlite(path, batch),
    undoBatch: (batch, change) => undoBatchSqlite(path, batch, change),
    undoPreview: async (batch) => undoCounts(database, batch),
    replacedReadings: async (batch, most) => replacedReadings(database, batch, most),
    readReadings: async (unitId, from, to) => readReadings(database, { unitId, from, to }),
    readingSpan: async (unitId) => {
      const row = span.get(unitId);
      return row === undefined || row.first === null ? null : { ...row, first: row.first };
    },
    nominalSensors: async (unitId, to) => nominalSensors(database, unitId, to),
    newestReadings: async () =>
      new Map(newest.all().flatMap((row) => (row.last === null ? [] : [[row.id, row.last] as const]))),
    readDaily: async (unitId, fromDay = -1e6) => readDaily(database, unitId, fromDay),
    replaceDaily: (unitId, fromDay, daily) => write(() => replaceDaily(database, { unitId, fromDay, daily })),
    due: async () => new Map(due.all().map((row) => [row.unit_id, { since: row.since, mark: row.mark }])),
    markAllDue: (unitIds, since) => write(() => markAll(unitIds, since)),
    markDue: (unitId, since) => write(() => markDue(unitId, since)),
    postponeDue: (unitId, mark, since) => write(() => void postponeDue.run(since, unitId, mark)),
    clearDue: (marks) => write(() => clearAll(marks)),
    close: () => database.close(),
  };
}

/** Newest readings first: sensors that move are told from the last few hundred, without reading the whole record. */
function nominalSensors(database: Database.Database, unitId: number, to: number): number {
  const span = database
    .prepare<[number, number], { span: number | null }>(
      'SELECT max(time) - min(time) AS span FROM reading WHERE unit_id = ? AND time < ?',
    )
    .get(unitId, to)!.span;
  const judge = judgeNominal(span ?? 0);
  const rows = database
    .prepare<[number, number], Row>(
      `SELECT ${BALANCE_SENSORS.map(columnName).join(', ')} FROM reading
       WHERE unit_id = ? AND time < ? ORDER BY time DESC`,
    )
    .raw();
  for (const row of rows.iterate(unitId, to)) if (judge.take(row)) break;
  return judge.bits();
}

type Row = (number | null)[];

function readReadings(
  database: Database.Database,
  { unitId, from, to }: { unitId: number; from: number; to: number },
): ReadingColumns {
  const rows = database
    .prepare<[number, number, number], Row>(
      `SELECT time, flow_basis, ${SENSORS.map(columnName).join(', ')} FROM reading
       WHERE unit_id = ? AND time >= ? AND time < ? ORDER BY time`,
    )
    .raw()
    .all(unitId, from, to);
  const columns = makeReadingColumns(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i]!;
    columns.time[i] = row[0]!;
    columns.flowBasis[i] = row[1]!;
    for (let s = 0; s < SENSORS.length; s++) columns[SENSORS[s]!][i] = row[s + 2] ?? Number.NaN;
  }
  return columns;
}

function readDaily(database: Database.Database, unitId: number, fromDay: number): DailyColumns {
  const blocks = database
    .prepare<[number, number], Buffer>(
      'SELECT figures FROM daily_block WHERE unit_id = ? AND month >= ? ORDER BY month',
    )
    .pluck()
    .all(unitId, monthOf(fromDay));
  return fromLocalDay(fromBlocks(blocks), fromDay);
}

function replaceDaily(
  database: Database.Database,
  { unitId, fromDay, daily }: { unitId: number; fromDay: number; daily: DailyColumns },
): void {
  const first = monthOf(fromDay);
  const find = database
    .prepare<[number, number], Buffer>('SELECT figures FROM daily_block WHERE unit_id = ? AND month = ?')
    .pluck();
  const remove = database.prepare('DELETE FROM daily_block WHERE unit_id = ? AND month >= ?');
  const insert = database.prepare('INSERT INTO daily_block (unit_id, month, figures) VALUES (?, ?, ?)');
  database
    .transaction(() => {
      const begun = find.get(unitId, first);
      const kept = begun === undefined ? [] : [upToLocalDay(fromBlocks([begun]), fromDay - 1)];
      remove.run(unitId, first);
      for (const { month, figures } of toBlocks(joinDaily([...kept, daily])))
        insert.run(unitId, month, figures);
    })
    .immediate();
}
