import { judgeNominal } from '@/lib/core/checks/nominal-sensors';
import { BALANCE_SENSORS } from '@/lib/core/exchange/reconcile';
import { columnName } from './column-name';

/** Columns that a search for nominal sensors asks for, in the order of BALANCE_SENSORS. */
export const NOMINAL_COLUMNS = BALANCE_SENSORS.map(columnName);

const WEEK_MS = 7 * 86_400_000;

/** Readings that tell of sensors that move, of a record of a length [ms]: twice the changes asked for, and some. */
export function nominalPage(span: number): number {
  return 64 + 2 * Math.ceil(span / WEEK_MS);
}

/** What was found in a unit's readings before an instant [ms]; nothing before it has changed since. */
export type KnownNominal = { bits: number; to: number };

/** Of which readings to tell the nominal sensors: those of a unit before an instant [ms]. */
export type NominalAsked = { unitId: number; to: number; known?: KnownNominal | null };

/** Most readings since what is known that are worth looking at by themselves. */
export const MOST_SINCE = 4096;

/**
 * The nominal sensors where readings have come after what is known, without looking at those before: as a nominal sensor changes
 * less than once a week, one that did not change stays one, and one that did at least as often as the record grew by weeks stays
 * none.
 *
 * @param grown by how much the record grew [ms]
 * @param since readings that came, in order of time, values in the order of BALANCE_SENSORS
 * @returns bits, and the nominal sensors that hold a value now: those are right if that was their last one before, too; null
 * where this does not tell
 */
export function nominalSince(
  bits: number,
  grown: number,
  since: readonly Row[],
): { bits: number; held: { place: number; value: number }[] } | null {
  const held: { place: number; value: number }[] = [];
  for (let place = 0; place < BALANCE_SENSORS.length; place++) {
    const { changes, last } = changesOf(place, since);
    if ((bits >> place) & 1) {
      if (changes > 0) return null;
      if (last !== null) held.push({ place, value: last });
    } else if (changes * WEEK_MS < grown) return null;
  }
  return { bits, held };
}

function changesOf(place: number, rows: readonly Row[]): { changes: number; last: number | null } {
  let changes = 0;
  let last: number | null = null;
  for (const row of rows) {
    const value = row[place] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    if (last !== null && value !== last) changes++;
    last = value;
  }
  return { changes, last };
}

/** A sensor that did not move yet: whether it ever held another value than this one, or any at all where this is null. */
export type StillSensor = { place: number; value: number | null };

/** Values in the order of BALANCE_SENSORS, null or NaN = none. */
type Row = ArrayLike<number | null>;

/** Looks for nominal sensors in a unit's readings, newest first, and ends as soon as nothing more can change. */
export class NominalSearch {
  readonly #judge;
  readonly #page: readonly Row[];
  #isDone: boolean;
  /** Bits of sensors that hold one value for ever: no reading makes them move. */
  #constant = 0;

  /**
   * @param span length of the record [ms]
   * @param page its newest readings, `nominalPage` of them where there are as many
   */
  constructor(span: number, page: readonly Row[]) {
    this.#judge = judgeNominal(span);
    this.#page = page;
    this.#isDone = page.some((row) => this.#judge.take(row)) || page.length < nominalPage(span);
  }

  get isDone(): boolean {
    return this.#isDone;
  }

  get bits(): number {
    return this.#judge.bits();
  }

  /** Sensors to ask the whole record of before going on. */
  stillSensors(): StillSensor[] {
    const bits = this.bits;
    return BALANCE_SENSORS.flatMap((_, place) =>
      (bits >> place) & 1 ? [{ place, value: this.#anyValue(place) }] : [],
    );
  }

  #anyValue(place: number): number | null {
    for (const row of this.#page) {
      const value = row[place] ?? Number.NaN;
      if (!Number.isNaN(value)) return value;
    }
    return null;
  }

  /** Says that a sensor never held another value. */
  isConstant(place: number): void {
    this.#constant |= 1 << place;
    this.#isDone ||= this.bits === this.#constant;
  }

  /** Takes a reading before the page, the newest first; true once nothing more can change. */
  take(row: Row): boolean {
    this.#judge.take(row);
    this.#isDone = this.bits === this.#constant;
    return this.#isDone;
  }
}
