import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { type Invariant, sqlInvariant } from './finding';

export const RESULT_INVARIANTS: readonly Invariant[] = [
  sqlInvariant({
    name: 'daily figures',
    tables: ['daily_result', 'unit'],
    count: 'SELECT count(*) AS n FROM daily_result',
    things: 'days, each of a unit, with no more readings accepted than there were',
    wrong: `
      SELECT printf('%d days of unit %d: %s', count(*), unit_id,
        iif(unit.id IS NULL, 'there is no such unit', 'more readings accepted than there were')) AS problem
      FROM daily_result LEFT JOIN unit ON unit.id = unit_id
      WHERE unit.id IS NULL OR accepted > readings OR min(accepted, readings, "off") < 0 GROUP BY unit_id`,
  }),
  sqlInvariant({
    name: 'results',
    tables: ['unit_result.basis', 'unit_version'],
    count: 'SELECT count(*) AS n FROM unit_result',
    things: `results, made by a known method (up to ${METHOD_VERSION}) with a datasheet that is there`,
    wrong: `
      SELECT printf('unit %d: %s', result.unit_id, CASE
        WHEN method_version > ${METHOD_VERSION} THEN printf('its result was made by a newer method (%d)', method_version)
        WHEN version.id IS NULL THEN printf('its result was made with datasheet %d, which is missing', unit_version)
        ELSE 'its result is no JSON' END) AS problem
      FROM unit_result AS result
        LEFT JOIN unit_version AS version ON version.unit_id = result.unit_id AND version.number = unit_version
      WHERE method_version > ${METHOD_VERSION} OR version.id IS NULL
        OR NOT json_valid(result) OR NOT json_valid(trend) OR NOT json_valid(basis)`,
  }),
  sqlInvariant({
    name: 'due for analysis',
    tables: ['unit_due', 'unit'],
    count: 'SELECT count(*) AS n FROM unit_due',
    things: 'units that wait for an analysis',
    wrong: `
      SELECT printf('unit %d is due and does not exist', unit_id) AS problem FROM unit_due
      WHERE unit_id NOT IN (SELECT id FROM unit)`,
  }),
  sqlInvariant({
    name: 'statements',
    tables: ['unit_statement'],
    count: 'SELECT count(*) AS n FROM unit_statement',
    things: 'statements for the weekly review',
    wrong: `
      SELECT printf('unit %d, day %d: the statement is no JSON', unit_id, day) AS problem FROM unit_statement
      WHERE NOT json_valid(statement)`,
  }),
];
