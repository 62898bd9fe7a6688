import { randomUUID } from 'node:crypto';
import type Database from 'better-sqlite3';

/** Parameters: unit, since [ms], a mark that is new. */
export const MARK_DUE = `INSERT INTO unit_due (unit_id, since, mark) VALUES (?, ?, ?)
     ON CONFLICT (unit_id) DO UPDATE SET since = min(since, excluded.since), mark = excluded.mark`;

/** Prepares marking a unit due since an instant [ms]. Every mark is a new one, so that an analysis clears only what it saw. */
export function prepareMarkDue(database: Database.Database): (unitId: number, since: number) => void {
  const statement = database.prepare(MARK_DUE);
  return (unitId, since) => void statement.run(unitId, since, randomUUID());
}
