import { calendarDay } from './calendar-day';
import type { WallClock, WallFault } from './wall-clock';

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 86_400_000;
const DASH = 45;
const COLON = 58;

export type TimeFault = WallFault | 'time-not-readable' | 'time-without-zone';

/**
 * The instant [ms] written in a text, or why there is none.
 *
 * Reads ISO 8601 in its extended form: `2026-11-25T08:30`, with a space for the T, with or without seconds and
 * fraction (cut at milliseconds), `24:00` as the end of the day, and the offset as Z, +hh:mm, +hhmm or +hh.
 * Without offset the time is one of the clock's zone. Written by hand because `Date` takes 31 February for 3 March
 * and is not fast enough.
 */
export function readTime(text: string, clock: WallClock | null): number | TimeFault {
  const day = readDay(text);
  const separator = text.charCodeAt(10) | 32;
  if (Number.isNaN(day) || (separator !== 116 && separator !== 32)) return 'time-not-readable';
  const at = { next: 11 };
  const clockTime = readClockTime(text, at);
  if (Number.isNaN(clockTime)) return 'time-not-readable';
  const wall = day * MS_PER_DAY + clockTime;
  if (at.next === text.length) return clock === null ? 'time-without-zone' : clock.resolve(wall);
  const offset = readOffset(text, at.next);
  return Number.isNaN(offset) ? 'time-not-readable' : wall - offset;
}

/** The local time [ms, as if it were UTC] of a text whose time is readable but for its zone. */
export function readWallTime(text: string): number {
  const at = { next: 11 };
  return readDay(text) * MS_PER_DAY + readClockTime(text, at);
}

/** `YYYY-MM-DD` as days since 1970-01-01; NaN where there is no such day. */
function readDay(text: string): number {
  if (text.length < 16) return Number.NaN;
  const century = twoDigits(text, 0);
  const yearOfCentury = twoDigits(text, 2);
  const month = twoDigits(text, 5);
  const day = twoDigits(text, 8);
  if (text.charCodeAt(4) !== DASH || text.charCodeAt(7) !== DASH) return Number.NaN;
  if (century < 0 || yearOfCentury < 0) return Number.NaN;
  return calendarDay(century * 100 + yearOfCentury, month, day);
}

/** `hh:mm`, `hh:mm:ss` or with a fraction, as ms of the day; `at` moves behind it. NaN where it is no time of day. */
function readClockTime(text: string, at: { next: number }): number {
  const hour = twoDigits(text, at.next);
  const minute = twoDigits(text, at.next + 3);
  if (text.charCodeAt(at.next + 2) !== COLON) return Number.NaN;
  at.next += 5;
  let ms = 0;
  if (text.charCodeAt(at.next) === COLON) {
    const second = twoDigits(text, at.next + 1);
    if (second < 0 || second > 59) return Number.NaN;
    at.next += 3;
    ms = second * 1000 + readFraction(text, at);
  }
  if (hour < 0 || hour > 24 || minute < 0 || minute > 59 || (hour === 24 && minute + ms > 0))
    return Number.NaN;
  return (hour * 60 + minute) * MS_PER_MINUTE + ms;
}

/** `.5` or `,5` of a second as ms; 0 where there is no fraction. */
function readFraction(text: string, at: { next: number }): number {
  const sign = text.charCodeAt(at.next);
  if (sign !== 46 && sign !== 44) return 0;
  let ms = 0;
  let place = 100;
  let i = at.next + 1;
  for (; isDigit(text.charCodeAt(i)); i++) {
    ms += Math.floor((text.charCodeAt(i) - 48) * place);
    place /= 10;
  }
  if (i === at.next + 1) return Number.NaN;
  at.next = i;
  return ms;
}

/** Z, +hh:mm, +hhmm or +hh from `start` on as ms; NaN where it is none of them. */
function readOffset(text: string, start: number): number {
  const sign = text.charCodeAt(start);
  const length = text.length - start;
  if ((sign | 32) === 122) return length === 1 ? 0 : Number.NaN;
  if ((sign !== 43 && sign !== DASH) || (length !== 3 && length !== 5 && length !== 6)) return Number.NaN;
  if (length === 6 && text.charCodeAt(start + 3) !== COLON) return Number.NaN;
  const hours = twoDigits(text, start + 1);
  const minutes = length === 3 ? 0 : twoDigits(text, text.length - 2);
  if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return Number.NaN;
  const offset = (hours * 60 + minutes) * MS_PER_MINUTE;
  return sign === DASH ? -offset : offset;
}

function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at);
  const ones = text.charCodeAt(at + 1);
  return isDigit(tens) && isDigit(ones) ? (tens - 48) * 10 + (ones - 48) : -1;
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}
