import { BALANCE_SENSORS } from '../exchange/reconcile';
import type { ReadingColumns } from '../series/reading-columns';

const WEEK_MS = 7 * 86_400_000;

/** Judges sensors from readings given one by one, newest first or oldest first. */
export type NominalJudge = {
  /** Takes one reading's values in the order of `BALANCE_SENSORS`, null or NaN = none; true once nothing more can change. */
  take: (values: ArrayLike<number | null>) => boolean;
  /** Bits of the nominal sensors among the readings taken. */
  bits: () => number;
};

/**
 * Sensors that hold a nominal value somebody typed in rather than a measurement: over the whole record they change less
 * than once a week on average. A standstill of such a column is no sign of a frozen sensor.
 *
 * @param span length of the whole record [ms], not of an excerpt: a frozen sensor looks nominal in a short one
 * @returns a judge to be given the record's readings; bits in the order of `BALANCE_SENSORS` [-]
 * @range  any
 * @source common practice
 * @check  tests/core/checks/frozen-sensors.test.ts
 */
export function judgeNominal(span: number): NominalJudge {
  const last = new Float64Array(BALANCE_SENSORS.length).fill(Number.NaN);
  const changes = new Float64Array(BALANCE_SENSORS.length);
  const isNominal = (place: number) => changes[place] === 0 || changes[place]! * WEEK_MS < span;
  return {
    take: (values) => {
      let undecided = false;
      for (let place = 0; place < last.length; place++) {
        const value = values[place] ?? Number.NaN;
        if (!Number.isNaN(value)) {
          if (value !== last[place] && !Number.isNaN(last[place]!)) changes[place]!++;
          last[place] = value;
        }
        undecided ||= isNominal(place);
      }
      return !undecided;
    },
    bits: () => last.reduce((bits, _, place) => (isNominal(place) ? bits | (1 << place) : bits), 0),
  };
}

/**
 * The nominal sensors of a record held in columns.
 *
 * @param readings the whole record of a unit, not part of it
 * @returns bits in the order of `BALANCE_SENSORS` (temperatures, then flows) [-]
 * @range  any length
 * @source `judgeNominal`
 * @check  tests/core/checks/frozen-sensors.test.ts
 */
export function nominalSensors(readings: ReadingColumns): number {
  const { time } = readings;
  const judge = judgeNominal(time.length === 0 ? 0 : time[time.length - 1]! - time[0]!);
  const values = new Float64Array(BALANCE_SENSORS.length);
  for (let i = time.length - 1; i >= 0; i--) {
    for (let place = 0; place < values.length; place++) values[place] = readings[BALANCE_SENSORS[place]!][i]!;
    if (judge.take(values)) break;
  }
  return judge.bits();
}
