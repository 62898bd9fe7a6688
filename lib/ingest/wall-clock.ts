import { Temporal } from 'temporal-polyfill';
import { AppError } from '@/lib/contract/app-error';

const MS_PER_HOUR = 3_600_000;
/** Hours whose offset is remembered: eleven years of hourly steps, then the memory starts anew. */
const MAX_HOURS = 100_000;

export type WallFault = 'time-occurs-twice' | 'time-does-not-exist';

type Resolved = { instant: number; other: number; fault: WallFault | null };

/**
 * Instants of a zone's local times. A library look-up takes tens of microseconds, so the offset of each local hour is
 * remembered; an hour in which the offset changes is looked up time by time.
 */
export class WallClock {
  readonly timeZone: string;
  /** Offset [ms] of each hour met; NaN where it changes within the hour. */
  #offsets = new Map<number, number>();

  constructor(timeZone: string) {
    this.timeZone = checkedZone(timeZone);
  }

  /** The instant [ms] of a local time, given as if it were UTC [ms]; or why there is none. */
  resolve(wall: number): number | WallFault {
    const hour = Math.floor(wall / MS_PER_HOUR);
    let offset = this.#offsets.get(hour);
    if (offset === undefined) {
      offset = this.#offsetOfHour(hour);
      if (this.#offsets.size >= MAX_HOURS) this.#offsets.clear();
      this.#offsets.set(hour, offset);
    }
    if (!Number.isNaN(offset)) return wall - offset;
    const { instant, fault } = this.#lookUp(wall);
    return fault ?? instant;
  }

  /** The offsets a local time that occurs twice could have, such as `+01:00 or +00:00`. */
  offsetsOf(wall: number): string {
    const { instant, other } = this.#lookUp(wall);
    return [instant, other].map((at) => this.#zoned(at).offset).join(' or ');
  }

  #offsetOfHour(hour: number): number {
    const first = this.#lookUp(hour * MS_PER_HOUR);
    const last = this.#lookUp((hour + 1) * MS_PER_HOUR - 1);
    if (first.fault !== null || last.fault !== null) return Number.NaN;
    const offset = hour * MS_PER_HOUR - first.instant;
    return last.instant - first.instant === MS_PER_HOUR - 1 ? offset : Number.NaN;
  }

  #lookUp(wall: number): Resolved {
    const local = Temporal.Instant.fromEpochMilliseconds(wall).toZonedDateTimeISO('UTC').toPlainDateTime();
    const earlier = local.toZonedDateTime(this.timeZone, { disambiguation: 'earlier' });
    const later = local.toZonedDateTime(this.timeZone, { disambiguation: 'later' });
    const [instant, other] = [earlier.epochMilliseconds, later.epochMilliseconds];
    if (instant === other) return { instant, other, fault: null };
    const exists = earlier.toPlainDateTime().equals(local);
    return { instant, other, fault: exists ? 'time-occurs-twice' : 'time-does-not-exist' };
  }

  #zoned(instant: number) {
    return Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(this.timeZone);
  }
}

function checkedZone(timeZone: string): string {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(timeZone);
    return timeZone;
  } catch {
    const message = `"${timeZone}" is no time zone; write its place, such as Europe/Lisbon`;
    throw new AppError('invalid-input', message, [{ field: 'timeZone', message }]);
  }
}
