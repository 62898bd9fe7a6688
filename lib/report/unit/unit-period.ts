import type { Cycle } from '@/lib/core/pipeline/unit-trend';
import type { DailyColumns } from '@/lib/core/series/daily-columns';
import { localDay } from '@/lib/time/local-clock';
import { startOfLocalDay } from '@/lib/time/local-day';
import type { PeriodName, UnitAddress } from './unit-address';

/** The shown period, in local days (both included) and as instants [ms] (`to` excluded). */
export type Period = { name: PeriodName; fromDay: number; toDay: number; from: number; to: number };

/** What a period is picked from. */
export type PeriodContext = { daily: DailyColumns; cycles: Cycle[]; timeZone: string; now: number };

const DAYS: Partial<Record<PeriodName, number>> = { '30d': 30, '90d': 90, '1y': 365 };

/** A running cycle younger than this shows too little; then the page opens with the last 90 days [d] (own choice). */
export const SHORTEST_CYCLE_SHOWN_DAYS = 30;

/** The period the address asks for; the running cycle where it asks for none and the cycle is old enough. */
export function periodOf(address: UnitAddress, context: PeriodContext): Period {
  const today = localDay(context.now, context.timeZone);
  if (address.period === 'custom' && address.fromDay !== null && address.toDay !== null) {
    return withInstants({ name: 'custom', fromDay: address.fromDay, toDay: address.toDay }, context);
  }
  const name = address.period ?? (cycleDays(context, today) < SHORTEST_CYCLE_SHOWN_DAYS ? '90d' : 'cycle');
  return withInstants({ name, fromDay: firstDay(name, context, today), toDay: today }, context);
}

/** The period of the same length before or after; null after when the shown one already reaches today. */
export function neighbourPeriod(
  period: Period,
  direction: -1 | 1,
  today: number,
): Pick<Period, 'fromDay' | 'toDay'> | null {
  const length = period.toDay - period.fromDay + 1;
  if (direction === 1 && period.toDay >= today) return null;
  const fromDay = period.fromDay + direction * length;
  return { fromDay, toDay: fromDay + length - 1 };
}

function firstDay(name: PeriodName, context: PeriodContext, today: number): number {
  const days = DAYS[name];
  if (days !== undefined) return today - days + 1;
  const firstOfRecord = context.daily.day[0] ?? today;
  if (name === 'cycle') return context.cycles.at(-1)?.startDay ?? firstOfRecord;
  return firstOfRecord;
}

function cycleDays(context: PeriodContext, today: number): number {
  const start = context.cycles.at(-1)?.startDay;
  return start === undefined ? 0 : today - start;
}

function withInstants(days: Pick<Period, 'name' | 'fromDay' | 'toDay'>, context: PeriodContext): Period {
  return {
    ...days,
    from: startOfLocalDay(days.fromDay, context.timeZone),
    to: startOfLocalDay(days.toDay + 1, context.timeZone),
  };
}
