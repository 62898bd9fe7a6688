import { Temporal } from 'temporal-polyfill';
import { AppError } from '@/lib/contract/app-error';

const MS_PER_HOUR = 3_600_000;
const MS_PER_DAY = 24 * MS_PER_HOUR;
/** Days, and hours of days on which the clock is changed, whose offset is remembered before the memory starts anew. */
const MAX_REMEMBERED = 10_000;

export type WallFault = 'time-occurs-twice' | 'time-does-not-exist';

type Resolved = { instant: number; other: number; fault: WallFault | null };

/**
 * Instants of a zone's local times. A library look-up takes tens of microseconds, so the offset of each local day is
 * remembered, on days with a change that of each hour; an hour with a change is looked up time by time.
 */
export class WallClock {
  readonly timeZone: string;
  /** Offset [ms] of each stretch met; NaN where it changes within. */
  #ofDays = new Map<number, number>();
  #ofHours = new Map<number, number>();

  constructor(timeZone: string) {
    this.timeZone = checkedZone(timeZone);
  }

  /** The instant [ms] of a local time, given as if it were UTC [ms]; or why there is none. */
  resolve(wall: number): number | WallFault {
    let offset = this.#offsetWithin(this.#ofDays, wall, MS_PER_DAY);
    if (Number.isNaN(offset)) offset = this.#offsetWithin(this.#ofHours, wall, MS_PER_HOUR);
    if (!Number.isNaN(offset)) return wall - offset;
    const { instant, fault } = this.#lookUp(wall);
    return fault ?? instant;
  }

  /** The offsets a local time that occurs twice could have, such as `+01:00 or +00:00`. */
  offsetsOf(wall: number): string {
    const { instant, other } = this.#lookUp(wall);
    return [instant, other].map((at) => this.#zoned(at).offset).join(' or ');
  }

  #offsetWithin(remembered: Map<number, number>, wall: number, length: number): number {
    const stretch = Math.floor(wall / length);
    const known = remembered.get(stretch);
    if (known !== undefined) return known;
    const offset = this.#lookUpStretch(stretch * length, length);
    if (remembered.size >= MAX_REMEMBERED) remembered.clear();
    remembered.set(stretch, offset);
    return offset;
  }

  /** One offset at both ends is one throughout: no zone has changed its clock and back within a day. */
  #lookUpStretch(begin: number, length: number): number {
    const first = this.#lookUp(begin);
    const last = this.#lookUp(begin + length - 1);
    if (first.fault !== null || last.fault !== null) return Number.NaN;
    return last.instant - first.instant === length - 1 ? begin - first.instant : Number.NaN;
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
