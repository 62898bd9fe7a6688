import { SENSORS } from '@/lib/core/exchange/exchanger';
import type { ReadingColumns } from '@/lib/core/series/reading-columns';

/** From an instant on, up to another [ms]. */
export type Stretch = { from: number; to: number };

/** Changes closer than this are told as one stretch [ms] (a day): what lies between is near enough to be judged anew. */
const JOIN_MS = 86_400_000;

/** Where two records of a unit differ: readings that only one of them has, or of another value. Ascending. */
export function changedStretches(before: ReadingColumns, after: ReadingColumns): Stretch[] {
  const changed: Stretch[] = [];
  const note = (at: number) => {
    const last = changed.at(-1);
    if (last !== undefined && at - last.to <= JOIN_MS) last.to = at + 1;
    else changed.push({ from: at, to: at + 1 });
  };
  let [i, j] = [0, 0];
  while (i < before.time.length || j < after.time.length) {
    const [old, now] = [
      before.time[i] ?? Number.POSITIVE_INFINITY,
      after.time[j] ?? Number.POSITIVE_INFINITY,
    ];
    if (old !== now || !isSame(before, i, after, j)) note(Math.min(old, now));
    if (old <= now) i++;
    if (now <= old) j++;
  }
  return changed;
}

function isSame(before: ReadingColumns, i: number, after: ReadingColumns, j: number): boolean {
  if (before.flowBasis[i] !== after.flowBasis[j]) return false;
  // Values that are both absent are the same.
  return SENSORS.every((sensor) => Object.is(before[sensor][i], after[sensor][j]));
}
