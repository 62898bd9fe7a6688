import { REASONS, type Reason } from '../checks/reasons';
import type { DailyColumns } from '../series/daily-columns';
import { balanceDrift } from './balance-drift';
import type { UnitTrend } from './unit-trend';

type Health = UnitTrend['health'];

const UNIT_OFF = REASONS.indexOf('unit-off');

/** Days that a unit's data health is judged over [days]. */
export const HEALTH_DAYS = 30;

/** A reason that leaves out no more than this share of the running unit's readings makes no sensor suspect [-] (own choice). */
const SUSPECT_SHARE = 0.05;

/** What the unit did, or a person said: no sensor is suspect for it. */
const NO_FAULT: ReadonlySet<Reason | null> = new Set([
  null,
  'unit-off',
  'flow-below-turndown',
  'not-steady',
  'excluded-by-person',
]);

/**
 * Data health of a unit: share of usable readings among those of the last 30 days in which it ran, the reason that left
 * out most of the rest (standing still counts only where the unit never ran), since which day that reason has been the
 * day's worst without interruption (days without readings do not interrupt), and whether the heat balance drifts.
 *
 * @param daily         daily figures up to today
 * @param todayLocalDay today [days since 1970-01-01]
 * @returns usable share [-] and worst reason, null where nothing is left out; without any reading in those days the reason
 *   is 'missing' since the day after the last reading. The data are suspect since the earlier beginning of drift and worst
 *   reason; a reason that left out a twentieth or less, of the unit's running, or a person's word, makes no sensor suspect
 * @range  any
 * @source METHODS §7
 * @check  tests/core/pipeline/data-health.test.ts
 */
export function dataHealth(daily: DailyColumns, todayLocalDay: number): Health {
  const { leftOut, ...usability } = usabilityOf(daily, todayLocalDay);
  const drift = balanceDrift(daily, todayLocalDay);
  const isSuspect = leftOut > SUSPECT_SHARE && !NO_FAULT.has(usability.worstReason);
  const faultSince = isSuspect ? usability.sinceDay : null;
  const beginnings = [faultSince, drift?.sinceDay ?? null].filter((day) => day !== null);
  return { ...usability, drift, suspectSinceDay: beginnings.length === 0 ? null : Math.min(...beginnings) };
}

/** Share of the running unit's readings that the worst reason left out [-]; all where there are none. */
type Usability = Pick<Health, 'usable' | 'worstReason' | 'sinceDay'> & { leftOut: number };

function usabilityOf(daily: DailyColumns, todayLocalDay: number): Usability {
  const leftOut = new Float64Array(REASONS.length);
  let running = 0;
  let readings = 0;
  let accepted = 0;
  for (let row = daily.day.length - 1; row >= 0 && daily.day[row]! > todayLocalDay - HEALTH_DAYS; row--) {
    running += daily.readings[row]! - daily.off[row]!;
    readings += daily.readings[row]!;
    accepted += daily.accepted[row]!;
    const worst = daily.worstReason[row]!;
    if (worst >= 0)
      leftOut[worst]! +=
        daily.readings[row]! - daily.accepted[row]! - (worst === UNIT_OFF ? 0 : daily.off[row]!);
  }
  if (readings === 0) {
    const lastDay = daily.day.at(-1);
    const sinceDay = lastDay === undefined ? null : lastDay + 1;
    return { usable: null, worstReason: 'missing', sinceDay, leftOut: 1 };
  }
  const usable = running === 0 ? null : accepted / running;
  const faults = leftOut.map((count, reason) => (reason === UNIT_OFF && running > 0 ? 0 : count));
  const worst = faults.reduce((best, count, reason) => (count > faults[best]! ? reason : best), 0);
  if (faults[worst] === 0) return { usable, worstReason: null, sinceDay: null, leftOut: 0 };
  return {
    usable,
    worstReason: REASONS[worst]!,
    sinceDay: dominatesSince(daily, worst),
    leftOut: running === 0 ? 1 : faults[worst]! / running,
  };
}

/** First day of the latest unbroken run of days whose worst reason this is. */
function dominatesSince({ day, worstReason }: DailyColumns, reason: number): number {
  let row = worstReason.lastIndexOf(reason);
  while (row > 0 && worstReason[row - 1] === reason) row--;
  return day[row]!;
}
