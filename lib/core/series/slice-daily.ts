import { DAILY_FLOAT_COLUMNS, type DailyColumns, makeDailyColumns } from './daily-columns';
import { firstNotBefore } from './first-not-before';

/**
 * The daily figures from a local day on.
 *
 * @param daily   daily columns, length n, ascending by day
 * @param fromDay local day since 1970-01-01 [d]
 * @returns views onto the same columns, length 0 to n
 * @range  any day
 * @source house rule: columns are cut by view, never copied
 * @check  tests/core/series/slice-daily.test.ts
 */
export function fromLocalDay(daily: DailyColumns, fromDay: number): DailyColumns {
  return cut(daily, firstNotBefore(daily.day, fromDay), daily.day.length);
}

/**
 * The rows up to and including a day, without copying.
 *
 * @param daily daily figures
 * @param day   local day [days since 1970-01-01]
 * @returns views onto the same columns, length 0 to n
 * @range  any
 * @source none: selection only
 * @check  tests/core/series/slice-daily.test.ts
 */
export function upToLocalDay(daily: DailyColumns, day: number): DailyColumns {
  return cut(daily, 0, firstNotBefore(daily.day, day + 1));
}

/**
 * Stretches of daily figures one behind the other, as one.
 *
 * @param parts daily columns, ascending from part to part
 * @returns a copy, as long as all of them together
 * @range  any number of parts
 * @source none: copying only
 * @check  tests/core/series/slice-daily.test.ts
 */
export function joinDaily(parts: readonly DailyColumns[]): DailyColumns {
  const daily = makeDailyColumns(parts.reduce((sum, part) => sum + part.day.length, 0));
  let at = 0;
  for (const part of parts) {
    for (const name of NAMES) daily[name].set(part[name], at);
    at += part.day.length;
  }
  return daily;
}

const NAMES = ['day', 'readings', 'accepted', 'off', 'worstReason', ...DAILY_FLOAT_COLUMNS] as const;

function cut(daily: DailyColumns, start: number, end: number): DailyColumns {
  if (start === 0 && end === daily.day.length) return daily;
  // A copy whose columns are replaced: an object that so many are added to one by one is slow to read from.
  const part = { ...daily };
  part.day = daily.day.subarray(start, end);
  part.readings = daily.readings.subarray(start, end);
  part.accepted = daily.accepted.subarray(start, end);
  part.off = daily.off.subarray(start, end);
  part.worstReason = daily.worstReason.subarray(start, end);
  for (const name of DAILY_FLOAT_COLUMNS) part[name] = daily[name].subarray(start, end);
  return part;
}
