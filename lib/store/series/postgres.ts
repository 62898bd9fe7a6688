import type { Pool } from 'pg';
import { openPostgresAnalysis } from './analysis-postgres';
import { readDailyOf } from './postgres-daily';
import { openDue } from './postgres-due';
import { importBatchPostgres } from './postgres-import';
import { nominalSensorsOf } from './postgres-nominal';
import { newestReadings, readingSpans, readReadings } from './postgres-reading';
import { replacedReadingsPostgres } from './postgres-replaced';
import { undoBatchPostgres, undoCountsPostgres } from './postgres-undo';
import { READ_REVISIONS, revisionText } from './revision';
import type { SeriesStore } from './series-store';

/** The series store over one PostgreSQL database. The pool is the caller's, who ends it. */
export function openPostgresSeries(pool: Pool): SeriesStore {
  const due = openDue(pool);
  return {
    importBatch: (batch) => importBatchPostgres(pool, batch),
    undoBatch: (batch, change) => undoBatchPostgres(pool, batch, change),
    undoPreview: (batch) => undoCountsPostgres(pool, batch),
    replacedReadings: (batch, most) => replacedReadingsPostgres(pool, batch, most),
    readReadings: (unitId, from, to) => readReadings(pool, { unitId, from, to }),
    readingSpan: async (unitId) => (await readingSpans(pool, [unitId])).get(unitId) ?? null,
    readingSpans: (unitIds) => readingSpans(pool, unitIds),
    nominalSensors: async (unitId, to) => (await nominalSensorsOf(pool, [{ unitId, to }])).get(unitId)!,
    nominalSensorsOf: (asked) => nominalSensorsOf(pool, asked),
    newestReadings: () => newestReadings(pool),
    readDaily: async (unitId, fromDay) => (await readDailyOf(pool, [{ unitId, fromDay }])).get(unitId)!,
    readDailyOf: (asked) => readDailyOf(pool, asked),
    due: () => due.all(),
    markDue: (unitId, since) => due.markAll([unitId], since),
    markAllDue: (unitIds, since) => due.markAll(unitIds, since),
    revision: async () => {
      const { rows } = await pool.query<{ name: string; number: string }>(READ_REVISIONS);
      return revisionText(rows);
    },
    analysis: openPostgresAnalysis(pool),
    close: () => {},
  };
}
