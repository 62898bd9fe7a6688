import type { TimeFormat } from '@/lib/contract/time-format';
import type { ChunkBuilder, RowAt } from './chunk-builder';
import { isNumberFormat, type NumberFormat, timeOfNumber } from './epoch-times';
import type { FoundTimes } from './found-times';
import { readTime, readWallTime, type TimeFault } from './read-time';
import type { ReadingColumn, ReadingOptions } from './reading-format';
import { quoted } from './set-aside';
import { timeFault } from './time-fault';
import { type DateOrder, TimeScanner } from './time-scanner';
import { WallClock } from './wall-clock';

/** Where a row's time stands; its date too, where that has a column of its own. */
export type TimePlace = { field: number; dateField: number; name: string };

export function timePlace(columns: readonly ReadingColumn[]): TimePlace {
  const field = columns.findIndex(({ use }) => use === 'time');
  const dateField = columns.findIndex(({ use }) => use === 'date');
  const named = [dateField, field].filter((at) => at >= 0).map((at) => columns[at]!.name.trim());
  return { field, dateField, name: named.join(', ') };
}

/** The column of times of a file. */
export class TimeField {
  readonly #place: TimePlace;
  readonly #times: FoundTimes;
  readonly #format: TimeFormat;
  readonly #numbers: NumberFormat | null;
  readonly #order: DateOrder;
  readonly #clock: WallClock | null;
  readonly #scanner = new TimeScanner();

  constructor(place: TimePlace, times: FoundTimes, options: ReadingOptions) {
    this.#place = place;
    this.#times = times;
    this.#format = times.format ?? 'iso';
    this.#numbers = isNumberFormat(this.#format) ? this.#format : null;
    this.#order = this.#format === 'month-first' ? 'month-first' : 'day-first';
    const timeZone = options.timeZone ?? options.mapping?.timeZone ?? null;
    this.#clock = timeZone === null ? null : new WallClock(timeZone);
  }

  /** The row's instant [ms]; NaN where it has none, and then the row is set aside. */
  read(cells: string[], at: RowAt, builder: ChunkBuilder): number {
    const { field, dateField, name } = this.#place;
    const time = dateField < 0 ? this.instant(cells[field]!) : this.paired(cells[dateField]!, cells[field]!);
    if (typeof time === 'number') return time;
    const written = dateField < 0 ? cells[field]! : `${cells[dateField]!} ${cells[field]!}`.trim();
    builder.setAside(at, time, name, this.#explain(written, time));
    return Number.NaN;
  }

  /** Whether a time in ISO 8601 is read as one, whatever else the column may hold. */
  get readsIsoFirst(): boolean {
    return this.#numbers === null;
  }

  /** The instant [ms] of a text, or why it has none. */
  instant(written: string): number | TimeFault {
    if (this.#numbers !== null) return this.#counted(written, this.#numbers);
    // Most files write ISO 8601; in others such a time is rare and found out at its fifth character.
    const time = readTime(written, this.#clock);
    return time === 'time-not-readable' ? this.#written(written) : time;
  }

  #counted(written: string, format: NumberFormat): number | TimeFault {
    const time = timeOfNumber(written, format);
    if (Number.isNaN(time)) {
      // Dates of a sheet are exact whatever its plain numbers count.
      return format === 'excel-serial' ? readTime(written, this.#clock) : 'time-not-readable';
    }
    return format === 'excel-serial' ? this.onWall(time) : time;
  }

  #written(written: string): number | TimeFault {
    return this.#scanner.scan(written) === 'moment' ? this.#scanned() : 'time-not-readable';
  }

  /** The instant [ms] of a date and a time of day in cells of their own. */
  paired(date: string, clock: string): number | TimeFault {
    return this.#scanner.scanPair(date, clock) === 'moment' ? this.#scanned() : 'time-not-readable';
  }

  #scanned(): number | TimeFault {
    const scanner = this.#scanner;
    if (this.#format === 'iso' && !scanner.isYearFirst) return 'time-not-readable';
    if (this.#format === 'month-first' && scanner.isNamed) return 'time-not-readable';
    const wall = scanner.wall(this.#order);
    if (Number.isNaN(wall)) return 'time-not-readable';
    return Number.isNaN(scanner.offset) ? this.onWall(wall) : wall - scanner.offset;
  }

  /** The instant [ms] of a time without offset, given as if it were UTC [ms]. */
  onWall(wall: number): number | TimeFault {
    return this.#clock === null ? 'time-without-zone' : this.#clock.resolve(wall);
  }

  #explain(written: string, fault: TimeFault): string {
    const zone = this.#clock?.timeZone;
    switch (fault) {
      case 'time-not-readable':
        return timeFault(written, this.#times);
      case 'time-without-zone':
        return `${quoted(written)} has no offset; name the file's time zone, or write offsets such as +01:00`;
      case 'time-does-not-exist':
        return `${quoted(written)} does not exist in ${zone}, where the clock was put forward; write it with its offset`;
      case 'time-occurs-twice': {
        const offsets = this.#clock?.offsetsOf(this.#wallOf(written));
        return `${quoted(written)} occurs twice in ${zone}; write it with its offset, ${offsets}`;
      }
    }
  }

  /** The local time of a text that is one. */
  #wallOf(written: string): number {
    const counted = this.#numbers === null ? Number.NaN : timeOfNumber(written, this.#numbers);
    if (!Number.isNaN(counted)) return counted;
    const iso = readWallTime(written);
    if (!Number.isNaN(iso)) return iso;
    this.#scanner.scan(written);
    return this.#scanner.wall(this.#order);
  }
}
