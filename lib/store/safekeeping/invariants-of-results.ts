import { METHOD_VERSION } from '@/lib/core/pipeline/method-version';
import { daysIn, fromBlocks, isWhole, monthOf } from '../series/daily-block';
import { areJson, type Invariant, type Look, type Row, rowInvariant, sqlInvariant } from './finding';

export const RESULT_INVARIANTS: readonly Invariant[] = [
  { name: 'daily figures', tables: ['daily_block', 'unit'], look: dailyFigures },
  rowInvariant({
    name: 'results',
    tables: ['unit_result.summary', 'unit_version'],
    rows: `
      SELECT result.unit_id, method_version, unit_version, version.id AS known, result, trend, basis, telling, summary
      FROM unit_result AS result
        LEFT JOIN unit_version AS version ON version.unit_id = result.unit_id AND version.number = unit_version
      ORDER BY result.unit_id`,
    things: `results, made by a known method (up to ${METHOD_VERSION}) with a datasheet that is there`,
    problemOf: (row) => {
      const problem = problemOfResult(row);
      return problem === null ? null : `unit ${row.unit_id}: ${problem}`;
    },
  }),
  sqlInvariant({
    name: 'due for analysis',
    tables: ['unit_due', 'unit'],
    count: 'SELECT count(*) AS n FROM unit_due',
    things: 'units that wait for an analysis',
    wrong: `
      SELECT 'unit ' || unit_id || ' is due and does not exist' AS problem FROM unit_due
      WHERE unit_id NOT IN (SELECT id FROM unit) ORDER BY unit_id`,
  }),
  rowInvariant({
    name: 'statements',
    tables: ['unit_statement'],
    rows: 'SELECT unit_id, day, statement FROM unit_statement ORDER BY unit_id, day',
    things: 'statements for the weekly review',
    problemOf: ({ unit_id, day, statement }) =>
      areJson(statement) ? null : `unit ${unit_id}, day ${day}: the statement is no JSON`,
  }),
];

function problemOfResult(row: Row): string | null {
  if (Number(row.method_version) > METHOD_VERSION)
    return `its result was made by a newer method (${row.method_version})`;
  if (row.known === null) return `its result was made with datasheet ${row.unit_version}, which is missing`;
  const isJson = areJson(row.result, row.trend, row.basis, row.telling, row.summary);
  return isJson ? null : 'its result is no JSON';
}

type BlockRow = { known: unknown; month: number; figures: Buffer };

/** Whole blocks of known units, each day in the month of its block, with no more readings accepted than there were. */
function dailyFigures(): Look {
  let days = 0;
  const wrong = new Map<string, number>();
  const take = (row: Row) => {
    const block = { known: row.known, month: Number(row.month), figures: row.figures as Buffer };
    days += Math.floor(daysIn(block.figures));
    const problem = problemOf(block);
    if (problem === null) return;
    const words = `unit ${row.unit}: ${problem}`;
    wrong.set(words, (wrong.get(words) ?? 0) + 1);
  };
  const sql = `SELECT unit_id AS unit, unit.id AS known, month, figures
     FROM daily_block LEFT JOIN unit ON unit.id = unit_id ORDER BY unit_id, month`;
  return {
    questions: [{ sql, take }],
    finding: () => ({
      looked: `${days} days, each of a unit, with no more readings accepted than there were`,
      problems: [...wrong].map(([words, months]) => `${words} (months: ${months})`),
    }),
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
