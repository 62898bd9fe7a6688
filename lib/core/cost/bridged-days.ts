import type { DailyColumns } from '../series/daily-columns';
import { firstNotBefore } from '../series/first-not-before';

/** Days without a figure between two with one are taken as lying between them, if not more than this [days] (own choice). */
export const LONGEST_BRIDGED_DAYS = 7;

/** A day that counts: one with a figure (`before` and `after` are its row), or one on the line between two rows. */
export type CountedDay = { day: number; before: number; after: number; share: number };

/**
 * The days of a cycle that count as running: those with a figure, and up to 7 days without one between two with one. Longer
 * gaps do not count, for the unit may have stood.
 *
 * @param daily   daily figures
 * @param rows    rows to take, `from` included, `to` excluded: not across a cleaning
 * @param fromDay local day from which on they are wanted [days since 1970-01-01]; all where not given
 * @returns days, ascending, each with the rows beside it and its share of the way from one to the other [-]
 * @range  any
 * @source METHODS §10; own choice of the longest gap
 * @check  tests/core/cost/daily-losses.test.ts
 */
export function countedDays(
  daily: Pick<DailyColumns, 'day' | 'lostDuty'>,
  rows: { from: number; to: number },
  fromDay = Number.NEGATIVE_INFINITY,
): CountedDay[] {
  const { day, lostDuty } = daily;
  const counted: CountedDay[] = [];
  let before = -1;
  for (let row = firstFor(daily, rows, fromDay); row < rows.to; row++) {
    if (Number.isNaN(lostDuty[row]!)) continue;
    if (before >= 0) pushBetween(counted, day, { before, after: row, fromDay });
    if (day[row]! >= fromDay) counted.push({ day: day[row]!, before: row, after: row, share: 0 });
    before = row;
  }
  return counted;
}

/** The last row with a figure before a day: what lies between it and the next hangs on both. */
function firstFor(
  { day, lostDuty }: Pick<DailyColumns, 'day' | 'lostDuty'>,
  { from, to }: { from: number; to: number },
  fromDay: number,
): number {
  let row = from + firstNotBefore(day.subarray(from, to), fromDay) - 1;
  while (row > from && Number.isNaN(lostDuty[row]!)) row--;
  return Math.max(from, row);
}

function pushBetween(
  counted: CountedDay[],
  day: Int32Array,
  { before, after, fromDay }: { before: number; after: number; fromDay: number },
): void {
  const first = day[before]!;
  const steps = day[after]! - first;
  if (steps - 1 > LONGEST_BRIDGED_DAYS) return;
  for (let i = 1; i < steps; i++)
    if (first + i >= fromDay) counted.push({ day: first + i, before, after, share: i / steps });
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
