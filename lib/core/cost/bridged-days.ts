import type { DailyColumns } from '../series/daily-columns';

/** Days without a figure between two with one are taken as lying between them, if not more than this [days] (own choice). */
export const LONGEST_BRIDGED_DAYS = 7;

/** A day that counts: one with a figure (`before` and `after` are its row), or one on the line between two rows. */
export type CountedDay = { day: number; before: number; after: number; share: number };

/**
 * The days of a cycle that count as running: those with a figure, and up to 7 days without one between two with one. Longer
 * gaps do not count, for the unit may have stood.
 *
 * @param daily daily figures
 * @param rows  rows to take, `from` included, `to` excluded: not across a cleaning
 * @returns days, ascending, each with the rows beside it and its share of the way from one to the other [-]
 * @range  any
 * @source METHODS §10; own choice of the longest gap
 * @check  tests/core/cost/daily-losses.test.ts
 */
export function countedDays(daily: DailyColumns, rows: { from: number; to: number }): CountedDay[] {
  const counted: CountedDay[] = [];
  let before = -1;
  for (let row = rows.from; row < rows.to; row++) {
    if (Number.isNaN(daily.lostDuty[row]!)) continue;
    if (before >= 0) counted.push(...between(daily.day, before, row));
    counted.push({ day: daily.day[row]!, before: row, after: row, share: 0 });
    before = row;
  }
  return counted;
}

function between(day: Int32Array, before: number, after: number): CountedDay[] {
  const steps = day[after]! - day[before]!;
  if (steps - 1 > LONGEST_BRIDGED_DAYS) return [];
  return Array.from({ length: steps - 1 }, (_, i) => ({
    day: day[before]! + i + 1,
    before,
    after,
    share: (i + 1) / steps,
  }));
}

/**
 * Value of a column on a day that counts: its figure, or the straight line between the figures beside it.
 *
 * @param column  any column of the daily figures [any unit]
 * @param counted a day of `countedDays`
 * @returns [unit of the column]; NaN where a row it needs has none
 * @range  any
 * @source linear interpolation
 * @check  tests/core/cost/daily-losses.test.ts
 */
export function valueOn(column: Float64Array, { before, after, share }: CountedDay): number {
  return before === after ? column[before]! : column[before]! * (1 - share) + column[after]! * share;
}
