import { DAILY_FLOAT_COLUMNS, type DailyColumns } from './daily-columns';

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
  const found = daily.day.findIndex((day) => day >= fromDay);
  const start = found < 0 ? daily.day.length : found;
  const cut = {
    day: daily.day.subarray(start),
    readings: daily.readings.subarray(start),
    accepted: daily.accepted.subarray(start),
    off: daily.off.subarray(start),
    worstReason: daily.worstReason.subarray(start),
  } as DailyColumns;
  for (const name of DAILY_FLOAT_COLUMNS) cut[name] = daily[name].subarray(start);
  return cut;
}
