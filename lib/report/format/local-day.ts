import { Temporal } from 'temporal-polyfill';
import { isoDay } from './time';

/** The instant [ms] at which a local day (days since 1970-01-01) begins in a named zone. */
export function startOfDay(day: number, timeZone: string): number {
  return Temporal.PlainDate.from(isoDay(day)).toZonedDateTime(timeZone).epochMilliseconds;
}

/** The day number of "2026-11-25"; null when the text is no date. */
export function parseIsoDay(text: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const ms = Date.parse(`${text}T00:00:00Z`);
  // Date.parse takes 30 February for 2 March; such a text is no date.
  return Number.isNaN(ms) || new Date(ms).toISOString().slice(0, 10) !== text ? null : ms / 86_400_000;
}
