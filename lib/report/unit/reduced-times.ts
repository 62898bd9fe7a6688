import { type ReductionWindow, reduceColumns } from '@/lib/core/series/reduce-columns';
import type { TimeAxis } from '@/lib/report/format/time-axis';

/** Columns so narrow that each reading has one of its own [-]. */
const EVERY_ROW = 1e9;

/** The window of an axis whose readings are drawn, cut into columns of pixels. */
export function windowOf(
  { from, today, end }: TimeAxis,
  { buckets, gap }: Pick<ReductionWindow, 'buckets' | 'gap'>,
): ReductionWindow {
  return { from, to: today ?? end, buckets: Math.min(buckets, EVERY_ROW), gap };
}

/** Instants of reduced readings [ms]: they hang on the window alone, not on what is drawn. */
export function reducedTimes(
  time: Float64Array,
  axis: TimeAxis,
  fineness: Pick<ReductionWindow, 'buckets' | 'gap'>,
): number[] {
  return Array.from(reduceColumns(time, [], windowOf(axis, fineness)).time, Math.round);
}
