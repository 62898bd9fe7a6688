import { DAY_MS } from './calendar-day';

// By the platform's own zone tables: this runs in the browser too.
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
