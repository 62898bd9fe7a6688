import { inTurn, onceFree, SHORT_WAIT_MS } from '../write-turn';
import { openSqliteAnalysis } from './analysis-sqlite';
import { openSqlite } from './open-sqlite';
import { READ_REVISIONS, revisionText } from './revision';
import type { SeriesStore } from './series-store';
import { prepareDaily } from './sqlite-daily';
import { prepareDue } from './sqlite-due';
import { importBatchSqlite } from './sqlite-import';
import { prepareNominal } from './sqlite-nominal';
import { prepareReading } from './sqlite-reading';
import { replacedReadings } from './sqlite-replaced';
import { undoBatchSqlite, undoCounts } from './sqlite-undo';

/** The series store over one SQLite file. */
export function openSqliteSeries(path: string): SeriesStore {
  const database = openSqlite(path);
  // Whoever would wait longer waits outside of SQLite, where the process goes on.
  database.pragma(`busy_timeout = ${SHORT_WAIT_MS}`);
  const write = <T>(act: () => T) => inTurn(path, () => onceFree(act));
  const reading = prepareReading(database);
  const nominal = prepareNominal(database);
  const readDaily = prepareDaily(database);
  const due = prepareDue(database);
  const revisions = database.prepare<[], { name: string; number: number }>(READ_REVISIONS);
  return {
    importBatch: (batch) => importBatchSqlite(path, batch),
    undoBatch: (batch, change) => undoBatchSqlite(path, batch, change),
    undoPreview: async (batch) => undoCounts(database, batch),
    replacedReadings: async (batch, most) => replacedReadings(database, batch, most),
    readReadings: async (unitId, from, to) => reading.readReadings({ unitId, from, to }),
    readingSpan: async (unitId) => reading.readingSpan(unitId),
    readingSpans: async (unitIds) => new Map(unitIds.flatMap(entriesOf(reading.readingSpan))),
    nominalSensors: async (unitId, to) => nominal({ unitId, to }),
    nominalSensorsOf: async (asked) => new Map(asked.map((one) => [one.unitId, nominal(one)])),
    newestReadings: async () => reading.newestReadings(),
    readDaily: async (unitId, fromDay) => readDaily(unitId, fromDay),
    readDailyOf: async (asked) =>
      new Map(asked.map(({ unitId, fromDay }) => [unitId, readDaily(unitId, fromDay)])),
    due: async () => due.all(),
    markDue: (unitId, since) => write(() => due.markAll([unitId], since)),
    markAllDue: (unitIds, since) => write(() => due.markAll(unitIds, since)),
    revision: async () => revisionText(revisions.all()),
    analysis: openSqliteAnalysis(path, database),
    close: () => database.close(),
  };
}

/** Entries of a map, of what has a value. */
function entriesOf<T>(ask: (unitId: number) => T | null): (unitId: number) => [number, T][] {
  return (unitId) => {
    const value = ask(unitId);
    return value === null ? [] : [[unitId, value]];
  };
}
