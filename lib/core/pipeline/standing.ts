import type { CycleSpan } from '../cycles/split-cycles';
import type { BegunSpan } from './cycle-spans';
import type { UnitTrend } from './unit-trend';

/** What of a trend the next one is worked out with where it still stands: what recorded and ended cycles told. */
export type LastingParts = Pick<
  UnitTrend,
  'cycles' | 'searches' | 'cleaningResults' | 'record' | 'lending' | 'flowDependence'
>;

/** What was said of a unit before, and the first local day whose figures may have changed since. */
export type KnownTrend = { trend: LastingParts; changedSinceDay: number };

/**
 * Whether a unit's recorded cleanings divide it as they did, all its ended cycles lying before the first change.
 *
 * @param known    what was said before
 * @param recorded cycles between recorded cleanings, the running one last
 * @returns true where nothing that hangs on ended cycles alone can have changed; false without any
 * @range  any
 * @source none: comparison only
 * @check  tests/core/pipeline/incremental-trend.test.ts
 */
export function recordedStand(
  { trend, changedSinceDay }: KnownTrend,
  recorded: readonly CycleSpan[],
): boolean {
  const known = trend.cycles.filter(({ began }) => began !== 'probable-cleaning');
  if (recorded.length < 2 || known.length !== recorded.length) return false;
  return recorded.every(({ start, startDay, endDay }, index) => {
    const before = known[index]!;
    const isRunning = index === recorded.length - 1;
    return before.start === start && before.startDay === startDay && (isRunning || endDay < changedSinceDay);
  });
}

/**
 * Whether the same cycles ended as before, probable cleanings included, all of them before the first change.
 *
 * @param known what was said before
 * @param ended every ended cycle, the oldest first
 * @returns true where what was said of them stands
 * @range  any
 * @source none: comparison only
 * @check  tests/core/pipeline/incremental-trend.test.ts
 */
export function endedStand({ trend, changedSinceDay }: KnownTrend, ended: readonly BegunSpan[]): boolean {
  const known = trend.cycles.slice(0, -1);
  if (known.length !== ended.length) return false;
  return ended.every(({ startDay, endDay, began }, index) => {
    const before = known[index]!;
    return (
      before.startDay === startDay &&
      before.endDay === endDay &&
      before.began === began &&
      endDay < changedSinceDay
    );
  });
}
