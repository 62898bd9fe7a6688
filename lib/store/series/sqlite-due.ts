import type Database from 'better-sqlite3';
import { prepareMarkDue } from './mark-due';
import type { Due } from './series-store';

/** Prepares what is done with units that are due. */
export function prepareDue(database: Database.Database) {
  const due = database.prepare<[], { unit_id: number } & Due>('SELECT unit_id, since, mark FROM unit_due');
  const mark = prepareMarkDue(database);
  return {
    all: () => new Map(due.all().map((row) => [row.unit_id, { since: row.since, mark: row.mark }])),
    markAll: database.transaction((unitIds: readonly number[], since: number) => {
      for (const unitId of unitIds) mark(unitId, since);
    }).immediate,
  };
}
