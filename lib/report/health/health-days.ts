import { REASONS, type Reason } from '@/lib/core/checks/reasons';
import { HEALTH_DAYS } from '@/lib/core/pipeline/data-health';
import type { DailyColumns } from '@/lib/core/series/daily-columns';

const UNIT_OFF = REASONS.indexOf('unit-off');

/** One of the days data health is judged over. */
export type HealthDay = {
  day: number;
  /** Readings, those accepted, and those at standstill. */
  readings: number;
  accepted: number;
  off: number;
  /** What left out most of the day's other readings; null where nothing was left out. */
  reason: Reason | null;
};

/** The last 30 days up to today, oldest first; a day without a row had no readings. */
export function healthDays(daily: DailyColumns, today: number): HealthDay[] {
  const days = Array.from(
    { length: HEALTH_DAYS },
    (_, index): HealthDay => ({
      day: today - HEALTH_DAYS + 1 + index,
      readings: 0,
      accepted: 0,
      off: 0,
      reason: null,
    }),
  );
  for (let row = daily.day.length - 1; row >= 0 && daily.day[row]! >= days[0]!.day; row--) {
    const day = days[daily.day[row]! - days[0]!.day];
    if (day === undefined) continue;
    day.readings = daily.readings[row]!;
    day.accepted = daily.accepted[row]!;
    day.off = daily.off[row]!;
    const worst = daily.worstReason[row]!;
    day.reason = worst < 0 ? null : REASONS[worst]!;
  }
  return days;
}

/** Share of a day's readings in operation that were accepted [-]; null where there was none. */
export function usableShare({ readings, accepted, off }: HealthDay): number | null {
  const running = readings - off;
  return running <= 0 ? null : accepted / running;
}

/** How many readings of those days were left out, under each day's chief reason; standing still is no fault. */
export function leftOutByReason(days: readonly HealthDay[]): Map<Reason, number> {
  const counts = new Map<Reason, number>();
  for (const { readings, accepted, off, reason } of days) {
    const leftOut = readings - accepted - off;
    if (reason === null || leftOut <= 0 || REASONS.indexOf(reason) === UNIT_OFF) continue;
    counts.set(reason, (counts.get(reason) ?? 0) + leftOut);
  }
  return counts;
}
