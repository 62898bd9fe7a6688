import type { ChunkBuilder, RowAt } from './chunk-builder';
import { readTime, readWallTime, type TimeFault } from './read-time';
import type { ReadingOptions } from './reading-format';
import { quoted } from './set-aside';
import { WallClock } from './wall-clock';

/** The column of times of a file. */
export class TimeField {
  readonly #field: number;
  readonly #name: string;
  readonly #clock: WallClock | null;

  constructor(field: number, name: string, options: ReadingOptions) {
    this.#field = field;
    this.#name = name;
    const timeZone = options.timeZone ?? options.mapping?.timeZone ?? null;
    this.#clock = timeZone === null ? null : new WallClock(timeZone);
  }

  /** The row's instant [ms]; NaN where it has none, and then the row is set aside. */
  read(cells: string[], at: RowAt, builder: ChunkBuilder): number {
    const written = cells[this.#field]!;
    const time = readTime(written, this.#clock);
    if (typeof time === 'number') return time;
    builder.setAside(at, time, this.#name, this.#explain(written, time));
    return Number.NaN;
  }

  #explain(written: string, fault: TimeFault): string {
    const zone = this.#clock?.timeZone;
    switch (fault) {
      case 'time-not-readable':
        return `${quoted(written)} is no time as ISO 8601 writes it, such as 2026-11-25T08:30:00+01:00`;
      case 'time-without-zone':
        return `${quoted(written)} has no offset; name the file's time zone, or write offsets such as +01:00`;
      case 'time-does-not-exist':
        return `${quoted(written)} does not exist in ${zone}, where the clock was put forward; write it with its offset`;
      case 'time-occurs-twice': {
        const offsets = this.#clock?.offsetsOf(readWallTime(written));
        return `${quoted(written)} occurs twice in ${zone}; write it with its offset, ${offsets}`;
      }
    }
  }
}
