import type { DailyColumns } from '../series/daily-columns';
import type { CycleSpan } from './split-cycles';

/**
 * Rows of a cycle whose day has a figure.
 *
 * @param daily daily figures of the unit
 * @param cycle its rows, `from` included, `to` excluded
 * @returns indices into the daily figures, ascending [-]
 * @range  any
 * @source none: selection only
 * @check  tests/core/cycles/cleaning-result.test.ts
 */
export function rowsWithFigures(
  { foulingResistance }: Pick<DailyColumns, 'foulingResistance'>,
  { from, to }: Pick<CycleSpan, 'from' | 'to'>,
): number[] {
  const rows: number[] = [];
  for (let row = from; row < to; row++) if (!Number.isNaN(foulingResistance[row]!)) rows.push(row);
  return rows;
}
