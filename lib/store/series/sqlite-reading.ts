import type Database from 'better-sqlite3';
import { SENSORS } from '@/lib/core/exchange/exchanger';
import { makeReadingColumns, type ReadingColumns } from '@/lib/core/series/reading-columns';
import type { ReadingSpan, ReadingStretch } from './series-store';
import { VALUE_COLUMNS } from './value-columns';

type Row = (number | null)[];

/** Prepares what is asked of the readings. */
export function prepareReading(database: Database.Database) {
  const rows = database
    .prepare<[number, number, number], Row>(
      `SELECT time, flow_basis, ${VALUE_COLUMNS.join(', ')} FROM reading
       WHERE unit_id = ? AND time >= ? AND time < ? ORDER BY time`,
    )
    .raw();
  const span = database.prepare<[number, number], { first: number | null; last: number }>(
    `SELECT (SELECT min(time) FROM reading WHERE unit_id = ?) AS first,
            (SELECT max(time) FROM reading WHERE unit_id = ?) AS last`,
  );
  const newest = database.prepare<[], { id: number; last: number | null }>(
    'SELECT id, (SELECT max(time) FROM reading WHERE unit_id = unit.id) AS last FROM unit',
  );
  return {
    readReadings: ({ unitId, from, to }: ReadingStretch) => columnsOf(rows.all(unitId, from, to)),
    readingSpan: (unitId: number): ReadingSpan | null => {
      const { first, last } = span.get(unitId, unitId)!;
      return first === null ? null : { first, last };
    },
    newestReadings: () =>
      new Map(newest.all().flatMap((row) => (row.last === null ? [] : [[row.id, row.last] as const]))),
  };
}

function columnsOf(rows: Row[]): ReadingColumns {
  const columns = makeReadingColumns(rows.length);
  for (let i = 0; i < rows.length; i++) {
    columns.time[i] = rows[i]![0]!;
    columns.flowBasis[i] = rows[i]![1]!;
  }
  SENSORS.forEach((sensor, s) => {
    const column = columns[sensor];
    for (let i = 0; i < rows.length; i++) column[i] = rows[i]![s + 2] ?? Number.NaN;
  });
  return columns;
}
