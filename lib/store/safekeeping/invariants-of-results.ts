import type Database from 'better-sqlite3';
import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { daysIn, fromBlocks, isWhole, monthOf } from '../series/daily-block';
import { type Finding, type Invariant, sqlInvariant } from './finding';

export const RESULT_INVARIANTS: readonly Invariant[] = [
  {
    name: 'daily figures',
    tables: ['daily_block', 'unit'],
    look: dailyFigures,
  },
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

type BlockRow = { unit: number; known: number | null; month: number; figures: Buffer };

/** Whole blocks of known units, each day in the month of its block, with no more readings accepted than there were. */
function dailyFigures(database: Database.Database): Finding {
  const rows = database.prepare<[], BlockRow>(
    `SELECT unit_id AS unit, unit.id AS known, month, figures
     FROM daily_block LEFT JOIN unit ON unit.id = unit_id ORDER BY unit_id, month`,
  );
  let days = 0;
  const wrong = new Map<string, number>();
  for (const row of rows.iterate()) {
    days += Math.floor(daysIn(row.figures));
    const problem = problemOf(row);
    if (problem === null) continue;
    const words = `unit ${row.unit}: ${problem}`;
    wrong.set(words, (wrong.get(words) ?? 0) + 1);
  }
  return {
    looked: `${days} days, each of a unit, with no more readings accepted than there were`,
    problems: [...wrong].map(([words, months]) => `${words} (months: ${months})`),
  };
}

function problemOf({ known, month, figures }: BlockRow): string | null {
  if (known === null) return 'there is no such unit';
  if (!isWhole(figures)) return 'its daily figures are cut';
  const { day, readings, accepted, off } = fromBlocks([figures]);
  if (day.some((own, i) => monthOf(own) !== month || (i > 0 && own <= day[i - 1]!)))
    return 'days that are not of their month or not in order';
  if (day.some((_, i) => accepted[i]! > readings[i]! || Math.min(accepted[i]!, readings[i]!, off[i]!) < 0))
    return 'more readings accepted than there were';
  return null;
}
