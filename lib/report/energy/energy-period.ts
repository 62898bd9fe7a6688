import type { CostPeriod } from '@/lib/contract/costs';
import { formatDay } from '@/lib/report/format/time';
import { addMonths } from '@/lib/report/time-axis';
import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import type { EnergyAddress } from './energy-address';

/** Local days, both included. */
export type EnergyPeriod = { from: number; to: number };

export const PERIOD_WORDS: Record<CostPeriod, string> = {
  'last-30-days': 'last 30 days',
  'this-month': 'this month',
  'last-month': 'last month',
  'this-quarter': 'this quarter',
  'last-quarter': 'last quarter',
  'this-year': 'this year',
  'last-12-months': 'last 12 months',
};

const USUAL_DAYS = 30;

/** The days an address asks for, as of today. Months, quarters and years are those of the calendar. */
export function energyPeriod(address: EnergyAddress, today: number): EnergyPeriod {
  const { period, fromDay, toDay } = address;
  if (period === 'custom' && fromDay !== null && toDay !== null) return { from: fromDay, to: toDay };
  const month = firstOfMonth(today);
  const monthOfYear = Number(isoDay(today).slice(5, 7)) - 1;
  const quarter = addMonths(month, -(monthOfYear % 3));
  switch (period) {
    case 'this-month':
      return { from: month, to: today };
    case 'last-month':
      return { from: addMonths(month, -1), to: month - 1 };
    case 'this-quarter':
      return { from: quarter, to: today };
    case 'last-quarter':
      return { from: addMonths(quarter, -3), to: quarter - 1 };
    case 'this-year':
      return { from: addMonths(month, -monthOfYear), to: today };
    case 'last-12-months':
      return { from: addMonths(today, -12) + 1, to: today };
    default:
      return { from: today - USUAL_DAYS + 1, to: today };
  }
}

/** As many days just before a period. */
export function periodBefore({ from, to }: EnergyPeriod): EnergyPeriod {
  return { from: from - (to - from + 1), to: from - 1 };
}

/** The whole calendar month, `YYYY-MM`; null for what is none. */
export function monthPeriod(month: string | null): EnergyPeriod | null {
  if (month === null || !/^\d{4}-(0[1-9]|1[0-2])$/.test(month)) return null;
  const from = dayNumber(`${month}-01`);
  return { from, to: addMonths(from, 1) - 1 };
}

/** Calendar months up to the one of a day, the earliest first. */
export function monthsUpTo(day: number, count: number): EnergyPeriod[] {
  const last = firstOfMonth(day);
  return Array.from({ length: count }, (_, index) => {
    const from = addMonths(last, index - count + 1);
    return { from, to: addMonths(from, 1) - 1 };
  });
}

export function daysOf({ from, to }: EnergyPeriod): number {
  return to - from + 1;
}

/** "from 1 Jul 2026 to 30 Sep 2026". */
export function periodInWords({ from, to }: EnergyPeriod): string {
  return from === to ? `on ${formatDay(to)}` : `from ${formatDay(from)} to ${formatDay(to)}`;
}

function firstOfMonth(day: number): number {
  return dayNumber(`${isoDay(day).slice(0, 7)}-01`);
}
