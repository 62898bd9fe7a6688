/** Days are whole local days since 1970-01-01, instants ms since 1970. Nothing here asks the machine's locale or zone. */

import { DAY_MS, dayNumber } from '@/lib/time/calendar-day';
import { localClock } from '@/lib/time/local-clock';

const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;

// Own names: Intl spells September "Sept" in one ICU release and "Sep" in the next, which breaks hydration.
export const MONTHS = [
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
] as const;

/** "25 Nov 2026" from a local day number or `YYYY-MM-DD`; `year: false` leaves the year out. */
export function formatDay(day: number | string, options: { year?: boolean } = {}): string {
  const date = new Date(dayNumber(day) * DAY_MS);
  const text = `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
  return options.year === false ? text : `${text} ${date.getUTCFullYear()}`;
}

/** "25 Nov 2026, 14:05" on the clock of the named zone. */
export function formatInstant(ms: number, timeZone: string): string {
  const clock = new Date(localClock(ms, timeZone));
  const two = (n: number) => String(n).padStart(2, '0');
  const day = formatDay(Math.floor(clock.getTime() / DAY_MS));
  return `${day}, ${two(clock.getUTCHours())}:${two(clock.getUTCMinutes())}`;
}

/** How long ago: "just now", "25 min ago", "3 h ago", "6 days ago"; ahead: "in 3 h". */
export function formatAge(ageMs: number): string {
  const size = Math.abs(ageMs);
  if (size < MINUTE_MS) return 'just now';
  return ageMs >= 0 ? `${formatSpan(size)} ago` : `in ${formatSpan(size)}`;
}

/** A span in the largest unit that leaves at least two of it: "90 min", "36 h", "12 days". */
export function formatSpan(spanMs: number): string {
  const count = (unit: number) => Math.round(spanMs / unit);
  if (spanMs < 2 * HOUR_MS) return `${count(MINUTE_MS)} min`;
  if (spanMs < 2 * DAY_MS) return `${count(HOUR_MS)} h`;
  return `${count(DAY_MS)} days`;
}
