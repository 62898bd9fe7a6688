/** Days are whole local days since 1970-01-01, instants ms since 1970. Nothing here asks the machine's locale or zone. */

export const DAY_MS = 86_400_000;
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

/** Local day number of `YYYY-MM-DD`; a number is given back. */
export function dayNumber(day: number | string): number {
  return typeof day === 'number' ? Math.floor(day) : Math.round(Date.parse(`${day}T00:00:00Z`) / DAY_MS);
}

/** `YYYY-MM-DD` of a local day number. */
export function isoDay(day: number): string {
  return new Date(Math.floor(day) * DAY_MS).toISOString().slice(0, 10);
}

const formatters = new Map<string, Intl.DateTimeFormat>();

function partsFormatter(timeZone: string): Intl.DateTimeFormat {
  const existing = formatters.get(timeZone);
  if (existing) return existing;
  const made = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    calendar: 'gregory',
    numberingSystem: 'latn',
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  });
  formatters.set(timeZone, made);
  return made;
}

/** Offsets from UTC change only on quarters of an hour, so one answer serves a quarter. */
const QUARTER_MS = 900_000;
const MOST_REMEMBERED = 50_000;
const offsets = new Map<string, Map<number, number>>();

/** The local wall clock of an instant, as if it were UTC [ms]: `floor(x / DAY_MS)` is the local day. */
export function localClock(ms: number, timeZone: string): number {
  const quarter = Math.floor(ms / QUARTER_MS);
  let known = offsets.get(timeZone);
  if (known === undefined || known.size > MOST_REMEMBERED) {
    known = new Map();
    offsets.set(timeZone, known);
  }
  let offset = known.get(quarter);
  if (offset === undefined) {
    offset = wallClock(quarter * QUARTER_MS, timeZone) - quarter * QUARTER_MS;
    known.set(quarter, offset);
  }
  return ms + offset;
}

function wallClock(ms: number, timeZone: string): number {
  const part: Record<string, number> = {};
  for (const { type, value } of partsFormatter(timeZone).formatToParts(ms)) part[type] = Number(value);
  return Date.UTC(part.year!, part.month! - 1, part.day!, part.hour!, part.minute!, part.second!);
}

/** Local day number of an instant. */
export function localDay(ms: number, timeZone: string): number {
  return Math.floor(localClock(ms, timeZone) / DAY_MS);
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
