import { BALANCE_SENSORS } from '../exchange/reconcile';
import { standardUncertainty, type UnitModel } from '../fouling/unit-model';
import type { ReadingColumns } from '../series/reading-columns';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Other sensors count as moving when one of them spans this many of its standard uncertainties meanwhile [-]. */
const MOVEMENT_MULTIPLE = 2;
/** A standstill is unusual when it lasts this many times the longest other one around it [-]: coarse resolution stands still too. */
const STANDSTILL_RATIO = 2;

/** A stretch of one value, as indices into the readings (both included). */
type Run = { start: number; end: number };

/**
 * Marks readings of a frozen sensor: one value repeated for `frozenHours` or longer, while another sensor moved by more
 * than its uncertainty, and for more than twice the longest other standstill of the same sensor around it. Each UTC
 * day is judged from itself and its two neighbours, so that a reading's effect ends two days away.
 *
 * @param model    unit with its settings and sensor uncertainties
 * @param readings columns, time in order
 * @param nominal  bits of sensors that hold a nominal value (`nominalSensors`): these are not judged
 * @returns 1 for every reading at which at least one sensor is frozen, length n [-]
 * @range  any interval of readings below `frozenHours`
 * @source common practice in data screening: flat-line test against the sensor's own usual standstill
 * @check  tests/core/checks/frozen-sensors.test.ts
 */
export function frozenSensors(model: UnitModel, readings: ReadingColumns, nominal: number): Uint8Array {
  const frozen = new Uint8Array(readings.time.length);
  const shortest = model.settings.frozenHours * HOUR_MS;
  BALANCE_SENSORS.forEach((sensor, place) => {
    if (((nominal >> place) & 1) === 1) return;
    const values = readings[sensor];
    for (let start = 0; start < values.length; start++) {
      const run = runFrom(values, start);
      if (readings.time[run.end]! - readings.time[start]! >= shortest) {
        markRun(frozen, run, { model, readings, place, shortest });
      }
      start = run.end;
    }
  });
  return frozen;
}

/** The run that begins at an index; readings without a value neither end it nor lengthen it. */
function runFrom(values: Float64Array, start: number): Run {
  let end = start;
  const value = values[start]!;
  if (Number.isNaN(value)) return { start, end };
  for (let i = start + 1; i < values.length; i++) {
    if (values[i] === value) end = i;
    else if (!Number.isNaN(values[i]!)) break;
  }
  return { start, end };
}

type Context = { model: UnitModel; readings: ReadingColumns; place: number; shortest: number };

function markRun(frozen: Uint8Array, run: Run, context: Context): void {
  const { time } = context.readings;
  let from = run.start;
  while (from <= run.end) {
    const day = Math.floor(time[from]! / DAY_MS);
    let next = from;
    while (next <= run.end && time[next]! < (day + 1) * DAY_MS) next++;
    if (isFrozenOn(day, run, context)) frozen.fill(1, from, next);
    from = next;
  }
}

/** Judges the part of a run that lies within a UTC day and its two neighbours. */
function isFrozenOn(day: number, run: Run, context: Context): boolean {
  const { time } = context.readings;
  const window = {
    start: firstNotBefore(time, (day - 1) * DAY_MS),
    end: firstNotBefore(time, (day + 2) * DAY_MS) - 1,
  };
  const part = { start: Math.max(run.start, window.start), end: Math.min(run.end, window.end) };
  const duration = time[part.end]! - time[part.start]!;
  if (duration < context.shortest) return false;
  return duration > STANDSTILL_RATIO * longestOther(window, part, context) && hasMovement(part, context);
}

function longestOther(window: Run, part: Run, { readings, place }: Context): number {
  const values = readings[BALANCE_SENSORS[place]!];
  let longest = 0;
  for (let start = window.start; start <= window.end; start++) {
    if (start === part.start) {
      start = part.end;
      continue;
    }
    const end = Math.min(runFrom(values, start).end, window.end);
    longest = Math.max(longest, readings.time[end]! - readings.time[start]!);
    start = end;
  }
  return longest;
}

function hasMovement(part: Run, { model, readings, place }: Context): boolean {
  return BALANCE_SENSORS.some((sensor, other) => {
    if (other === place) return false;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = part.start; i <= part.end; i++) {
      const value = readings[sensor][i]!;
      if (value < least) least = value;
      if (value > most) most = value;
    }
    return most - least > MOVEMENT_MULTIPLE * standardUncertainty(model.sensors[other]!, most);
  });
}

function firstNotBefore(time: Float64Array, instant: number): number {
  let low = 0;
  let high = time.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (time[middle]! < instant) low = middle + 1;
    else high = middle;
  }
  return low;
}
