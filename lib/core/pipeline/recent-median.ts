import type { DailyColumns } from '../series/daily-columns';
import { median } from '../stats/quantile';
import { RECENT_FIGURES } from './recent-conditions';

/**
 * What a daily column usually shows of late: its median over the last days with a fouling figure.
 *
 * @param daily  daily figures
 * @param column one of its columns [any unit]
 * @returns median over the last 14 days with a figure [unit of the column]; NaN without any, or where never measured
 * @range  any
 * @source METHODS §9; common practice
 * @check  tests/core/pipeline/recent-median.test.ts
 */
export function recentMedian(daily: DailyColumns, column: Float64Array): number {
  const values: number[] = [];
  let figures = 0;
  for (let row = daily.day.length - 1; row >= 0 && figures < RECENT_FIGURES; row--) {
    if (Number.isNaN(daily.foulingResistance[row]!)) continue;
    figures++;
    if (!Number.isNaN(column[row]!)) values.push(column[row]!);
  }
  return median(values);
}
