import { calendarDay } from '../calendar-day';
import type { TimeField } from '../time-field';

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 86_400_000;
const [ZERO, DASH, COLON, BLANK, LETTER_T, LETTER_Z] = [48, 45, 58, 32, 116, 122];
const [PLUS, POINT, COMMA] = [43, 46, 44];
/** `YYYY-MM-DDThh:mm` */
const SHORTEST = 16;
/** No time is longer than this. */
const LONGEST = 64;

/** Reads the times of a column by their bytes; those that are not plain ISO 8601 as the column reads any text. */
export class ByteTime {
  readonly #field: TimeField;
  readonly #isIso: boolean;
  /** The date met last, as one number, and its day [ms]. */
  #date = -1;
  #day = 0;
  /** Where the time of day ended. */
  #at = 0;

  constructor(field: TimeField) {
    this.#field = field;
    this.#isIso = field.readsIsoFirst;
  }

  /** The instant [ms] written between two places; NaN where it is to be looked at by the column itself. */
  instant(bytes: Uint8Array, from: number, to: number): number {
    if (to - from > LONGEST) return Number.NaN;
    if (this.#isIso) {
      const time = this.#iso(bytes, from, to);
      if (!Number.isNaN(time)) return time;
    }
    const text = asciiText(bytes, from, to);
    const time = text === null ? null : this.#field.instant(text);
    return typeof time === 'number' ? time : Number.NaN;
  }

  /** The instant of a date and a time of day that stand in cells of their own. */
  pairedInstant(
    bytes: Uint8Array,
    date: readonly [number, number],
    clock: readonly [number, number],
  ): number {
    if (date[1] - date[0] > LONGEST || clock[1] - clock[0] > LONGEST) return Number.NaN;
    const dateText = asciiText(bytes, ...date);
    const clockText = asciiText(bytes, ...clock);
    const time = dateText === null || clockText === null ? null : this.#field.paired(dateText, clockText);
    return typeof time === 'number' ? time : Number.NaN;
  }

  #iso(bytes: Uint8Array, from: number, to: number): number {
    if (to - from < SHORTEST || !this.#readDate(bytes, from)) return Number.NaN;
    const separator = bytes[from + 10]! | BLANK;
    if (separator !== LETTER_T && separator !== BLANK) return Number.NaN;
    const wall = this.#day + this.#clock(bytes, from + 11, to);
    if (Number.isNaN(wall)) return wall;
    if (this.#at === to) {
      const time = this.#field.onWall(wall);
      return typeof time === 'number' ? time : Number.NaN;
    }
    return wall - offsetOf(bytes, this.#at, to);
  }

  #readDate(bytes: Uint8Array, from: number): boolean {
    const century = twoDigits(bytes, from);
    const year = twoDigits(bytes, from + 2);
    const month = twoDigits(bytes, from + 5);
    const day = twoDigits(bytes, from + 8);
    if (century < 0 || year < 0 || month < 0 || day < 0) return false;
    if (bytes[from + 4] !== DASH || bytes[from + 7] !== DASH) return false;
    const date = ((century * 100 + year) * 100 + month) * 100 + day;
    if (date === this.#date) return true;
    const days = calendarDay(century * 100 + year, month, day);
    if (Number.isNaN(days)) return false;
    this.#date = date;
    this.#day = days * MS_PER_DAY;
    return true;
  }

  /** `hh:mm`, `hh:mm:ss` or with a fraction as ms of the day; NaN for any other, and for 24:00. */
  #clock(bytes: Uint8Array, from: number, to: number): number {
    const hour = twoDigits(bytes, from);
    const minute = twoDigits(bytes, from + 3);
    this.#at = from + 5;
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || bytes[from + 2] !== COLON) return Number.NaN;
    const ms = (hour * 60 + minute) * MS_PER_MINUTE;
    if (this.#at === to || bytes[this.#at] !== COLON) return ms;
    const second = twoDigits(bytes, from + 6);
    if (second < 0 || second > 59 || from + 8 > to) return Number.NaN;
    this.#at = from + 8;
    return ms + second * 1000 + this.#fraction(bytes, to);
  }

  /** Digits behind a point or comma, cut at milliseconds. */
  #fraction(bytes: Uint8Array, to: number): number {
    let at = this.#at;
    if (at === to || (bytes[at] !== POINT && bytes[at] !== COMMA)) return 0;
    at++;
    if (at === to || !isDigit(bytes[at]!)) return Number.NaN;
    let ms = 0;
    for (let place = 100; at < to && isDigit(bytes[at]!); place = Math.floor(place / 10)) {
      ms += (bytes[at++]! - ZERO) * place;
    }
    this.#at = at;
    return ms;
  }
}

/** Z or ±hh:mm up to the end as ms; NaN for any other. */
function offsetOf(bytes: Uint8Array, from: number, to: number): number {
  const sign = bytes[from]!;
  if ((sign | BLANK) === LETTER_Z) return to === from + 1 ? 0 : Number.NaN;
  if ((sign !== PLUS && sign !== DASH) || to !== from + 6 || bytes[from + 3] !== COLON) return Number.NaN;
  const hours = twoDigits(bytes, from + 1);
  const minutes = twoDigits(bytes, from + 4);
  if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return Number.NaN;
  return (hours * 60 + minutes) * MS_PER_MINUTE * (sign === DASH ? -1 : 1);
}

function twoDigits(bytes: Uint8Array, at: number): number {
  const tens = bytes[at]! - ZERO;
  const ones = bytes[at + 1]! - ZERO;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : -1;
}

function isDigit(code: number): boolean {
  return code >= ZERO && code <= 57;
}

/** Some bytes as text; null where one of them is no plain character. */
function asciiText(bytes: Uint8Array, from: number, to: number): string | null {
  let text = '';
  for (let at = from; at < to; at++) {
    const code = bytes[at]!;
    if (code < BLANK || code > 126) return null;
    text += String.fromCharCode(code);
  }
  return text;
}
