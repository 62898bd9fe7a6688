import { Temporal } from 'temporal-polyfill';
import { localClock } from './local-clock';

/** Why a local time is no instant: it cannot be read, or the clocks change then and it occurs twice or never. */
export type LocalTimeFault = 'no-time' | 'twice-or-never';

/** The instant [ms] of a local date and time such as 2026-05-04T08:00; nothing is guessed. */
export function localInstant(text: string, timeZone: string): number | LocalTimeFault {
  let local: Temporal.PlainDateTime;
  try {
    local = Temporal.PlainDateTime.from(text, { overflow: 'reject' });
  } catch {
    return 'no-time';
  }
  try {
    return local.toZonedDateTime(timeZone, { disambiguation: 'reject' }).epochMilliseconds;
  } catch {
    return 'twice-or-never';
  }
}

/** An instant as a local date and time to the minute, as a form's field writes it: 2026-05-04T08:00. */
export function localDateTime(instant: number, timeZone: string): string {
  return new Date(localClock(instant, timeZone)).toISOString().slice(0, 'YYYY-MM-DDTHH:MM'.length);
}
