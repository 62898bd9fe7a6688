import { dayNumber, isoDay } from '@/lib/time/calendar-day';
import { formatDay, MONTHS } from './format/time';

/** A stretch of local days, `to` excluded; shares along it run from 0 to 1. */
export type DaySpan = { from: number; to: number };

const DAYS_PER_MONTH = 365.25 / 12;

/** `isQuarter`: begins a quarter, so that its name stays where there is little room. */
export type MonthTick = { at: number; label: string; isYear: boolean; isQuarter: boolean };

/** Share of the span at which a day (or fraction of a day) lies; outside 0 to 1 when it is not within. */
export function shareOf(span: DaySpan, day: number): number {
  return (day - span.from) / (span.to - span.from);
}

/** The same date `months` later (earlier when negative); 31 Jan plus one month is 28 or 29 Feb. */
export function addMonths(day: number, months: number): number {
  const [year, month, date] = isoDay(day).split('-').map(Number) as [number, number, number];
  const firstOf = new Date(Date.UTC(year, month - 1 + months, 1));
  const lastDate = new Date(Date.UTC(year, month + months, 0)).getUTCDate();
  return dayNumber(firstOf.toISOString().slice(0, 10)) + Math.min(date, lastDate) - 1;
}

/** Up to so many months each has its name; above, only every third. */
const MOST_NAMED_MONTHS = 24;

/** The first day of each month within the span: "2027" for January, "Feb" for the others, no name where there is no room. */
export function monthTicks(span: DaySpan): MonthTick[] {
  const ticks: MonthTick[] = [];
  const isWide = span.to - span.from > MOST_NAMED_MONTHS * DAYS_PER_MONTH;
  let first = addMonths(dayNumber(`${isoDay(span.from).slice(0, 7)}-01`), 1);
  for (; first < span.to; first = addMonths(first, 1)) {
    const [year, month] = isoDay(first).split('-') as [string, string];
    const isYear = month === '01';
    const isQuarter = Number(month) % 3 === 1;
    const label = isYear ? year : isWide && !isQuarter ? '' : MONTHS[Number(month) - 1]!;
    ticks.push({ at: shareOf(span, first), label, isYear, isQuarter });
  }
  return ticks;
}

/** "25 Nov 2025 to 25 Aug 2027". */
export function spanInWords(span: DaySpan): string {
  return `${formatDay(span.from)} to ${formatDay(span.to)}`;
}
