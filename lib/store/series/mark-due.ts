import { randomUUID } from 'node:crypto';
import type Database from 'better-sqlite3';

/**
 * What becomes of a unit that is due already: the oldest change counts, and the mark is a new one. Who holds it stays. The same
 * on each database.
 */
export const DUE_ALREADY = `ON CONFLICT (unit_id) DO UPDATE SET
       since = CASE WHEN excluded.since < unit_due.since THEN excluded.since ELSE unit_due.since END,
       mark = excluded.mark`;

/** Prepares marking a unit due since an instant [ms]. Every mark is a new one, so that an analysis clears only what it saw. */
export function prepareMarkDue(database: Database.Database): (unitId: number, since: number) => void {
  const statement = database.prepare(
    `INSERT INTO unit_due (unit_id, since, mark) VALUES (?, ?, ?) ${DUE_ALREADY}`,
  );
  return (unitId, since) => void statement.run(unitId, since, randomUUID());
}
