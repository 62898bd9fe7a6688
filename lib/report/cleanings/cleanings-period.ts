import { formatDay } from '@/lib/report/format/time';
import { addMonths } from '@/lib/report/time-axis';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import type { CleaningPeriodName, CleaningsAddress } from './cleanings-address';

/** Local days, both included; `from` null: everything up to `to`. */
export type CleaningsPeriod = { from: number | null; to: number };

export const PERIOD_WORDS: Record<CleaningPeriodName, string> = {
  'last-quarter': 'last quarter',
  'this-quarter': 'this quarter',
  'last-month': 'last month',
  'this-month': 'this month',
  'last-12-months': 'last 12 months',
  all: 'all',
};

/** The days an address asks for, as of today. Quarters are those of the calendar. */
export function cleaningsPeriod(address: CleaningsAddress, today: number): CleaningsPeriod {
  const { period, fromDay, toDay } = address;
  if (period === 'custom' && fromDay !== null && toDay !== null) return { from: fromDay, to: toDay };
  const month = dayNumber(`${isoDay(today).slice(0, 7)}-01`);
  const quarter = addMonths(month, -((Number(isoDay(today).slice(5, 7)) - 1) % 3));
  switch (period) {
    case 'this-quarter':
      return { from: quarter, to: today };
    case 'last-month':
      return { from: addMonths(month, -1), to: month - 1 };
    case 'this-month':
      return { from: month, to: today };
    case 'last-12-months':
      return { from: addMonths(today, -12) + 1, to: today };
    case 'all':
      return { from: null, to: today };
    default:
      return { from: addMonths(quarter, -3), to: quarter - 1 };
  }
}

/** "from 1 Jul 2026 to 30 Sep 2026"; "up to 25 Nov 2026". */
export function periodInWords({ from, to }: CleaningsPeriod): string {
  if (from === null) return `up to ${formatDay(to)}`;
  return from === to ? `on ${formatDay(to)}` : `from ${formatDay(from)} to ${formatDay(to)}`;
}
