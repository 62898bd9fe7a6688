import { Temporal } from 'temporal-polyfill';
import { DAY_MS } from './calendar-day';
import { localClock } from './local-clock';

/** An instant as local days since 1970-01-01 with a fraction: 20,000.5 is noon by the wall clock. */
export function localMoment(instant: number, timeZone: string): number {
  return localClock(instant, timeZone) / DAY_MS;
}

/** The instant [ms] of such a moment; one that the clocks skip is moved on, of one that occurs twice the first is taken. */
export function instantOfMoment(moment: number, timeZone: string): number {
  const wallClock = new Date(Math.round(moment * DAY_MS)).toISOString().slice(0, -1);
  return Temporal.PlainDateTime.from(wallClock).toZonedDateTime(timeZone, { disambiguation: 'compatible' })
    .epochMilliseconds;
}
