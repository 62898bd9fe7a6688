import { unitSchema } from '@/lib/contract/fleet-file';
import { documentInvariant } from './document-invariant';
import { type Invariant, sqlInvariant } from './finding';

export const UNIT_INVARIANTS: readonly Invariant[] = [
  sqlInvariant({
    name: 'units',
    tables: ['unit', 'unit_version'],
    count: 'SELECT count(*) AS n FROM unit',
    things: 'units, each with its datasheets numbered from 1',
    wrong: `
      SELECT 'unit ' || unit.id || ' (' || tag || ') has ' || count(version.id) || ' datasheets, the newest numbered ' ||
        coalesce(max(number), 0) AS problem
      FROM unit LEFT JOIN unit_version AS version ON version.unit_id = unit.id GROUP BY unit.id
      HAVING count(version.id) = 0 OR max(number) <> count(version.id) OR min(number) <> 1 ORDER BY unit.id`,
  }),
  documentInvariant({
    name: 'datasheets',
    tables: ['unit', 'unit_version'],
    rows: `
      SELECT tag || ', datasheet ' || number AS label, document FROM unit_version AS version
        JOIN unit ON unit.id = version.unit_id
      WHERE number = (SELECT max(number) FROM unit_version WHERE unit_id = unit.id)
      ORDER BY tag`,
    things: 'datasheets in force, as the contract has them',
    schema: unitSchema,
  }),
  sqlInvariant({
    name: 'files of cleanings',
    tables: ['cleaning_file'],
    count: 'SELECT count(*) AS n FROM cleaning_file',
    things: 'files, each as long as it was',
    wrong: `
      SELECT 'file ' || id || ' (' || name || ') has ' || length(content) || ' of its ' || bytes || ' bytes' AS problem
      FROM cleaning_file WHERE length(content) <> bytes ORDER BY id`,
  }),
];
