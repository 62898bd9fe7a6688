import { firstNotBefore } from './first-not-before';

/** Where and how finely to reduce: a window of time [ms] cut into equal buckets, and the gap that breaks a line [ms]. */
export type ReductionWindow = { from: number; to: number; buckets: number; gap: number };

/** Reduced columns: `time` ascending; a row of NaN in every column stands where a line must be broken. */
export type ReducedColumns = { time: Float64Array; columns: Float64Array[] };

/**
 * At most two rows per bucket that keep each column's least and greatest value there, in the order they occurred, so
 * that a drawn line looks the same as with every reading. A spike is never lost and a gap is never bridged.
 *
 * @param time    instants [ms], length n, ascending, no duplicates
 * @param columns any columns [own units] of length n; NaN = no value
 * @param window  `from` ≤ time ≤ `to` is kept; a gap longer than both `gap` and a bucket becomes one row of NaN
 * @returns rows in time order [ms, own units]; a bucket whose values are all NaN in a column gives NaN there
 * @range  buckets ≥ 1, to > from; RangeError otherwise or when lengths differ
 * @source Min–max decimation, common practice in plotting; no published formula
 * @check  tests/core/series/reduce-columns.test.ts
 */
export function reduceColumns(
  time: Float64Array,
  columns: readonly Float64Array[],
  window: ReductionWindow,
): ReducedColumns {
  checkInput(time, columns, window);
  const bucketWidth = (window.to - window.from) / window.buckets;
  // A gap narrower than a bucket cannot be seen, and breaking there would cost rows.
  const gap = Math.max(window.gap, bucketWidth);
  const rows: Rows = { time: [], columns: columns.map(() => []) };
  let start = firstNotBefore(time, window.from);
  while (start < time.length && time[start]! <= window.to) {
    const bucket = Math.floor((time[start]! - window.from) / bucketWidth);
    const end = endOfGroup(time, start, {
      limit: window.from + (bucket + 1) * bucketWidth,
      to: window.to,
      gap,
    });
    pushGroup(rows, { time, columns, start, end });
    if (end < time.length && time[end]! <= window.to && time[end]! - time[end - 1]! > gap) {
      pushBreak(rows, (time[end]! + time[end - 1]!) / 2);
    }
    start = end;
  }
  return {
    time: Float64Array.from(rows.time),
    columns: rows.columns.map((column) => Float64Array.from(column)),
  };
}

type Rows = { time: number[]; columns: number[][] };
type Group = { time: Float64Array; columns: readonly Float64Array[]; start: number; end: number };

function checkInput(time: Float64Array, columns: readonly Float64Array[], window: ReductionWindow): void {
  if (columns.some((column) => column.length !== time.length))
    throw new RangeError('columns differ in length');
  if (!(window.buckets >= 1)) throw new RangeError('at least one bucket is needed');
  if (!(window.to > window.from)) throw new RangeError('the window is empty');
}

function endOfGroup(
  time: Float64Array,
  start: number,
  stop: { limit: number; to: number; gap: number },
): number {
  let end = start + 1;
  while (
    end < time.length &&
    time[end]! < stop.limit &&
    time[end]! <= stop.to &&
    time[end]! - time[end - 1]! <= stop.gap
  ) {
    end++;
  }
  return end;
}

function pushGroup(rows: Rows, group: Group): void {
  const last = group.end - 1;
  rows.time.push(group.time[group.start]!);
  if (last > group.start) rows.time.push(group.time[last]!);
  group.columns.forEach((column, index) => {
    const [first, second] = extremesInOrder(column, group.start, group.end);
    rows.columns[index]!.push(first);
    if (last > group.start) rows.columns[index]!.push(second);
  });
}

function extremesInOrder(column: Float64Array, start: number, end: number): [number, number] {
  let least = -1;
  let greatest = -1;
  for (let i = start; i < end; i++) {
    const value = column[i]!;
    if (Number.isNaN(value)) continue;
    if (least < 0 || value < column[least]!) least = i;
    if (greatest < 0 || value > column[greatest]!) greatest = i;
  }
  if (least < 0) return [Number.NaN, Number.NaN];
  return least <= greatest ? [column[least]!, column[greatest]!] : [column[greatest]!, column[least]!];
}

function pushBreak(rows: Rows, at: number): void {
  rows.time.push(at);
  for (const column of rows.columns) column.push(Number.NaN);
}
