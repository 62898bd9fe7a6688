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
      SELECT printf('unit %d (%s) has %d datasheets, the newest numbered %d', unit.id, tag, count(version.id),
        ifnull(max(number), 0)) AS problem
      FROM unit LEFT JOIN unit_version AS version ON version.unit_id = unit.id GROUP BY unit.id
      HAVING count(version.id) = 0 OR max(number) <> count(version.id) OR min(number) <> 1`,
  }),
  documentInvariant({
    name: 'datasheets',
    tables: ['unit', 'unit_version'],
    rows: `
      SELECT printf('%s, datasheet %d', tag, number) AS label, document FROM unit_version AS version
        JOIN unit ON unit.id = version.unit_id
      WHERE number = (SELECT max(number) FROM unit_version WHERE unit_id = unit.id)`,
    things: 'datasheets in force, as the contract has them',
    schema: unitSchema,
  }),
  sqlInvariant({
    name: 'files of cleanings',
    tables: ['cleaning_file'],
    count: 'SELECT count(*) AS n FROM cleaning_file',
    things: 'files, each as long as it was',
    wrong: `
      SELECT printf('file %d (%s) has %d of its %d bytes', id, name, length(content), bytes) AS problem
      FROM cleaning_file WHERE length(content) <> bytes`,
  }),
];
