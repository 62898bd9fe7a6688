import type { Pool } from 'pg';
import type { UnitStanding } from './analysis-store';

type Row = Omit<UnitStanding, 'known'> & {
  asOf: number | null;
  methodVersion: number | null;
  unitVersion: number;
  hasBasis: boolean;
};

/** What tells of every unit whether its results are those of today. */
export async function standings(pool: Pool): Promise<UnitStanding[]> {
  const { rows } = await pool.query<Row>(
    `SELECT unit.id AS "unitId", unit.tag, unit.site_id AS "siteId",
            (SELECT max(number) FROM unit_version WHERE unit_id = unit.id) AS version,
            newest.time::double precision AS newest,
            (extract(epoch FROM result.as_of) * 1000)::double precision AS "asOf",
            result.method_version AS "methodVersion", result.unit_version AS "unitVersion",
            result.basis <> '[]' AS "hasBasis", due.unit_id IS NOT NULL AS "isDue"
     FROM unit LEFT JOIN unit_result AS result ON result.unit_id = unit.id
     LEFT JOIN unit_due AS due ON due.unit_id = unit.id
     LEFT JOIN LATERAL (SELECT time FROM reading WHERE unit_id = unit.id ORDER BY time DESC LIMIT 1) AS newest ON true
     ORDER BY unit.id`,
  );
  return rows.map(({ asOf, methodVersion, unitVersion, hasBasis, ...unit }) => ({
    ...unit,
    known: methodVersion === null ? null : { asOf, methodVersion, unitVersion, hasBasis },
  }));
}
