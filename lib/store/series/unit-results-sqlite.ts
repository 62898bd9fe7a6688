import type Database from 'better-sqlite3';
import type { KnownResult, StoredTelling, UnitStanding } from './analysis-store';

type StandingRow = Omit<UnitStanding, 'known' | 'isDue'> & {
  asOf: number | null;
  methodVersion: number | null;
  unitVersion: number;
  hasBasis: number;
  isDue: number;
};

/** What tells of every unit whether its results are those of today. */
export function standings(database: Database.Database): UnitStanding[] {
  const rows = database
    .prepare<[], StandingRow>(
      `SELECT unit.id AS unitId, unit.tag, unit.site_id AS siteId,
              (SELECT max(number) FROM unit_version WHERE unit_id = unit.id) AS version,
              (SELECT max(time) FROM reading WHERE unit_id = unit.id) AS newest,
              result.as_of AS asOf, result.method_version AS methodVersion, result.unit_version AS unitVersion,
              result.basis <> '[]' AS hasBasis, due.unit_id IS NOT NULL AS isDue
       FROM unit LEFT JOIN unit_result AS result ON result.unit_id = unit.id
       LEFT JOIN unit_due AS due ON due.unit_id = unit.id ORDER BY unit.id`,
    )
    .all();
  return rows.map(({ asOf, methodVersion, unitVersion, hasBasis, isDue, ...unit }) => ({
    ...unit,
    isDue: isDue !== 0,
    known: methodVersion === null ? null : { asOf, methodVersion, unitVersion, hasBasis: hasBasis !== 0 },
  }));
}

/** What every unit with results says to the others. */
export function tellings(database: Database.Database): StoredTelling[] {
  return database
    .prepare<[], StoredTelling>(
      `SELECT unit_id AS unitId, as_of AS asOf, method_version AS methodVersion, telling
       FROM unit_result WHERE telling IS NOT NULL ORDER BY unit_id`,
    )
    .all();
}

export function tellingsRevision(database: Database.Database): number {
  return (
    database.prepare<[], number>("SELECT number FROM data_revision WHERE name = 'tellings'").pluck().get() ??
    0
  );
}

/** Prepares reading what the last analysis said of some units. */
export function prepareKnownResults(
  database: Database.Database,
): (unitIds: readonly number[]) => Map<number, KnownResult> {
  const find = database.prepare<[number], KnownResult>(
    `SELECT unit_id AS unitId, as_of AS asOf, method_version AS methodVersion, unit_version AS unitVersion, nominal,
       basis, trend
     FROM unit_result WHERE unit_id = ?`,
  );
  return (unitIds) =>
    new Map(
      unitIds.flatMap((unitId) => {
        const known = find.get(unitId);
        return known === undefined ? [] : [[unitId, known] as const];
      }),
    );
}
