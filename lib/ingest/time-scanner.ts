import { calendarDay } from './calendar-day';
import { monthNamed } from './month-names';
import {
  BLANK,
  COLON,
  COMMA,
  DASH,
  isBlank,
  isDigit,
  isLetter,
  isSeparator,
  PLUS,
  POINT,
  twoDigits,
} from './time-characters';

const MS_PER_MINUTE = 60_000;
const MS_PER_HOUR = 60 * MS_PER_MINUTE;
export const MS_PER_DAY = 86_400_000;
/** Years of two digits are those from 1970 to 2069. */
const FIRST_SHORT_YEAR = 70;

/** A date with or without a time of day. */
export type Scanned = 'moment' | 'date';
/** Which of day and month comes first where both are numbers. */
export type DateOrder = 'day-first' | 'month-first';

/**
 * Takes a time apart as plants write it, and holds the parts of the last one: numbers between points, slashes or dashes,
 * the month perhaps by its name, year first or last, then perhaps a time of day with AM or PM and an offset. Whether the
 * first number is the day or the month is not decided here. By hand, in one pass: it runs over every row.
 */
export class TimeScanner {
  /** The three parts of the date in the order written; a month by name as its number. */
  first = 0;
  second = 0;
  year = 0;
  isYearFirst = false;
  isNamed = false;
  hasShortYear = false;
  separator = 0;
  /** [ms] of the day; 0 in a date alone. */
  clock = 0;
  /** [ms]; NaN where none is written. */
  offset = Number.NaN;
  #text = '';
  #at = 0;
  #number = 0;
  /** The date whose parts are held, as written: the rows of a day share it. */
  #dateText = '';

  scan(text: string): Scanned | null {
    this.#text = text;
    this.#at = 0;
    this.clock = 0;
    this.offset = Number.NaN;
    if (!this.#knownDate() && !this.#date()) return null;
    if (this.#at === text.length) return 'date';
    if (!this.#gap() || !this.#clockTime()) return null;
    return this.#at === text.length || this.#tail() ? 'moment' : null;
  }

  /** A date and a time of day that stand in cells of their own. */
  scanPair(date: string, clock: string): Scanned | null {
    if (date !== this.#dateText && this.scan(date) !== 'date') return null;
    return this.scanClock(clock) ? 'moment' : null;
  }

  /** A time of day alone. */
  scanClock(text: string): boolean {
    this.#text = text;
    this.#at = 0;
    this.offset = Number.NaN;
    return this.#clockTime() && (this.#at === text.length || this.#tail());
  }

  /** Days since 1970-01-01 of the date scanned; NaN where it has no such day. */
  day(order: DateOrder): number {
    if (this.isYearFirst || this.isNamed || order === 'day-first') {
      return calendarDay(this.year, this.second, this.first);
    }
    return calendarDay(this.year, this.first, this.second);
  }

  /** The local time scanned [ms, as if it were UTC]. */
  wall(order: DateOrder): number {
    return this.day(order) * MS_PER_DAY + this.clock;
  }

  #knownDate(): boolean {
    const { length } = this.#dateText;
    if (length === 0 || !this.#text.startsWith(this.#dateText)) return false;
    this.#at = length;
    // More digits make it another date.
    return !isDigit(this.#code());
  }

  #date(): boolean {
    this.#at = 0;
    this.#dateText = '';
    if (!this.#dateParts()) return false;
    this.#dateText = this.#text.slice(0, this.#at);
    return true;
  }

  #dateParts(): boolean {
    const digits = this.#digits(4);
    this.isYearFirst = digits === 4;
    if (digits === 0 || digits === 3) return false;
    this.first = this.#number;
    this.separator = this.#code();
    if (!isSeparator(this.separator)) return false;
    this.#at++;
    if (this.separator === POINT && isBlank(this.#code())) this.#at++;
    this.isNamed = !this.isYearFirst && isLetter(this.#code());
    return this.isNamed ? this.#named() : this.#numbered();
  }

  #numbered(): boolean {
    if (this.separator === BLANK || this.#digits(2) === 0 || this.#code() !== this.separator) return false;
    this.second = this.#number;
    this.#at++;
    if (!this.isYearFirst) return this.#lastYear(this.separator === POINT);
    this.hasShortYear = false;
    if (this.#digits(2) === 0) return false;
    [this.year, this.first] = [this.first, this.#number];
    return true;
  }

  #named(): boolean {
    const begin = this.#at;
    while (isLetter(this.#code())) this.#at++;
    this.second = monthNamed(this.#text.slice(begin, this.#at));
    if (this.#code() === POINT) this.#at++;
    if (isSeparator(this.#code())) this.#at++;
    return this.second > 0 && this.#lastYear(true);
  }

  #lastYear(mayBeShort: boolean): boolean {
    const digits = this.#digits(4);
    this.hasShortYear = digits === 2;
    if (digits !== 4 && !(mayBeShort && digits === 2)) return false;
    this.year = this.#number;
    if (digits === 2) this.year += this.year < FIRST_SHORT_YEAR ? 2000 : 1900;
    return true;
  }

  /** What keeps date and time of day apart: a T, or blanks, perhaps behind a comma. */
  #gap(): boolean {
    if ((this.#code() | 32) === 116) {
      this.#at++;
      return true;
    }
    if (this.#code() === COMMA) this.#at++;
    return this.#blanks();
  }

  #clockTime(): boolean {
    const text = this.#text;
    let at = this.#at;
    let hour = twoDigits(text, at);
    if (hour >= 0) at++;
    else if (isDigit(text.charCodeAt(at))) hour = text.charCodeAt(at) - 48;
    const minute = twoDigits(text, at + 2);
    if (hour < 0 || text.charCodeAt(at + 1) !== COLON || minute < 0) return false;
    at += 4;
    let ms = 0;
    if (text.charCodeAt(at) === COLON) {
      const second = twoDigits(text, at + 1);
      if (second < 0 || second > 59) return false;
      at += 3;
      this.#at = at;
      ms = second * 1000 + this.#fraction();
    } else this.#at = at;
    this.clock = (hour * 60 + minute) * MS_PER_MINUTE + ms;
    return minute < 60 && this.clock <= MS_PER_DAY;
  }

  /** Digits behind a point or comma, cut at milliseconds; NaN where a sign has none behind it. */
  #fraction(): number {
    const sign = this.#code();
    if (sign !== POINT && sign !== COMMA) return 0;
    this.#at++;
    const begin = this.#at;
    let ms = 0;
    for (let place = 100; isDigit(this.#code()); place = Math.floor(place / 10)) {
      ms += (this.#code() - 48) * place;
      this.#at++;
    }
    return this.#at === begin ? Number.NaN : ms;
  }

  /** AM or PM, and an offset. */
  #tail(): boolean {
    if (isBlank(this.#code())) this.#blanks();
    const half = this.#code() | 32;
    if (half === 97 || half === 112) {
      if (!this.#half(half === 112)) return false;
      if (this.#at === this.#text.length) return true;
      this.#blanks();
    }
    return this.#at === this.#text.length || this.#offset();
  }

  /** `am`, `PM`, `p.m.`: the hours run from 12 over 1 to 11. */
  #half(isAfternoon: boolean): boolean {
    const text = this.#text;
    let at = this.#at + 1;
    if (text.charCodeAt(at) === POINT) at++;
    if ((text.charCodeAt(at) | 32) !== 109) return false;
    at++;
    if (text.charCodeAt(at) === POINT) at++;
    this.#at = at;
    if (this.clock < MS_PER_HOUR || this.clock >= 13 * MS_PER_HOUR) return false;
    if (this.clock >= 12 * MS_PER_HOUR) this.clock -= 12 * MS_PER_HOUR;
    if (isAfternoon) this.clock += 12 * MS_PER_HOUR;
    return true;
  }

  /** Z, UTC, +hh:mm, +hhmm or +hh up to the end. */
  #offset(): boolean {
    const sign = this.#code();
    if (sign !== PLUS && sign !== DASH) {
      const name = this.#text.slice(this.#at, this.#at + 4).toUpperCase();
      this.offset = 0;
      return name === 'Z' || name === 'UTC';
    }
    this.#at++;
    if (this.#digits(2) !== 2 || this.#number > 23) return false;
    const hours = this.#number;
    let minutes = 0;
    if (this.#at < this.#text.length) {
      if (this.#code() === COLON) this.#at++;
      if (this.#digits(2) !== 2 || this.#number > 59) return false;
      minutes = this.#number;
    }
    this.offset = (hours * 60 + minutes) * MS_PER_MINUTE * (sign === DASH ? -1 : 1);
    return this.#at === this.#text.length;
  }

  /** Reads a number of so many digits at most; returns how many it has. */
  #digits(most: number): number {
    const begin = this.#at;
    this.#number = 0;
    for (let code = this.#code(); this.#at - begin < most && isDigit(code); code = this.#code()) {
      this.#number = this.#number * 10 + code - 48;
      this.#at++;
    }
    return this.#at - begin;
  }

  #blanks(): boolean {
    const begin = this.#at;
    while (isBlank(this.#code())) this.#at++;
    return this.#at > begin;
  }

  #code(): number {
    return this.#text.charCodeAt(this.#at);
  }
}
