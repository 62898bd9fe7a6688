import { Temporal } from 'temporal-polyfill';
import { DAY_MS, isoDay } from './calendar-day';
import { localClock } from './local-clock';

/**
 * The local calendar day of each instant in a zone, as days since 1970-01-01.
 *
 * @param time [ms], ascending
 * @param timeZone IANA name
 */
export function localDays(time: Float64Array, timeZone: string): Int32Array {
  const days = new Int32Array(time.length);
  if (time.length === 0) return days;
  let until = Number.NEGATIVE_INFINITY;
  let offset = 0;
  for (let i = 0; i < time.length; i++) {
    const instant = time[i]!;
    // The offset holds until the zone's next transition, so that a year of readings costs two look-ups.
    if (instant >= until) ({ offset, until } = offsetAt(instant, timeZone));
    days[i] = Math.floor((instant + offset) / DAY_MS);
  }
  return days;
}

/** A zone's offset [ms] and from when until when it is known to hold [ms]. */
type HeldOffset = { offset: number; from: number; until: number };

/** The last one of each zone: the units of a fleet are asked after for the same days. */
const lastOffsets = new Map<string, HeldOffset>();

function offsetAt(instant: number, timeZone: string): HeldOffset {
  const known = lastOffsets.get(timeZone);
  if (known !== undefined && instant >= known.from && instant < known.until) return known;
  const here = Temporal.Instant.fromEpochMilliseconds(Math.floor(instant)).toZonedDateTimeISO(timeZone);
  const next = here.getTimeZoneTransition('next');
  const found = {
    offset: here.offsetNanoseconds / 1e6,
    from: instant,
    until: next === null ? Number.POSITIVE_INFINITY : next.epochMilliseconds,
  };
  lastOffsets.set(timeZone, found);
  return found;
}

const SECOND_MS = 1000;
const MINUTE_MS = 60_000;

/** Pages ask for the days of ten years again and again; each costs a look into the zone's tables. */
const MOST_REMEMBERED = 50_000;
const starts = new Map<string, Map<number, number>>();

/** First instant of a local day [ms]; days with a midnight that does not exist begin when the zone says so. */
export function startOfLocalDay(day: number, timeZone: string): number {
  let known = starts.get(timeZone);
  if (known === undefined || known.size > MOST_REMEMBERED) {
    known = new Map();
    starts.set(timeZone, known);
  }
  const found = known.get(day) ?? lookUpStart(day, timeZone);
  known.set(day, found);
  return found;
}

function lookUpStart(day: number, timeZone: string): number {
  return Temporal.PlainDate.from(isoDay(day)).toZonedDateTime(timeZone).epochMilliseconds;
}

/** An instant as ISO 8601 with the zone's offset, such as 2026-11-25T08:00:00+00:00. */
export function isoInZone(instant: number, timeZone: string): string {
  const clock = localClock(instant, timeZone);
  // Not by Temporal: a result holds a dozen instants, and each would cost as much as a day's heat balance.
  const wallClock = new Date(Math.floor(clock / SECOND_MS) * SECOND_MS)
    .toISOString()
    .slice(0, -'.000Z'.length);
  return `${wallClock}${offsetText(Math.round((clock - instant) / MINUTE_MS))}`;
}

function offsetText(minutes: number): string {
  const [hours, rest] = [Math.floor(Math.abs(minutes) / 60), Math.abs(minutes) % 60];
  const twoDigits = (number: number) => String(number).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${twoDigits(hours)}:${twoDigits(rest)}`;
}
