import { BALANCE_SENSORS } from '../exchange/reconcile';
import { standardUncertainty, type UnitModel } from '../fouling/unit-model';
import { firstNotBefore } from '../series/first-not-before';
import type { ReadingColumns } from '../series/reading-columns';
import { isBalanceMoving } from './moving-balance';
import type { MassFlows } from './screen-values';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Other sensors count as moving when one of them spans this many of its standard uncertainties meanwhile [-]. */
const MOVEMENT_MULTIPLE = 2;
/** A standstill is no chance when as many repeats in a row are expected this often in the days around it [-] (own choice). */
const CHANCE = 1e-4;

/** Fewest pairs of neighbours beside a standstill that tell a sensor's own share of repeats [-]. */
const FEWEST_PAIRS = 12;
/** With more repeats among them than this the sensor lingers at its values, and no run of them is chance [-] (own choice). */
const MOST_REPEATS = 1 / 3;

/** A stretch of one value, as indices into the readings (both included). */
type Run = { start: number; end: number };

/**
 * Marks readings of a frozen sensor: one value repeated for `frozenHours` or longer, while another sensor moved by more
 * than its uncertainty and resolution, and more often in a row than the sensor's usual share of repeats lets expect. Of one
 * that mostly repeats itself (coarse, or logged by exception) the heat balance decides: it must have moved meanwhile. Each
 * UTC day is judged from itself and its two neighbours, so that a reading's effect ends two days away.
 *
 * @param model    unit with its settings and sensor uncertainties
 * @param measured columns, time in order, and mass flows [kg/s]
 * @param nominal  bits of sensors that hold a nominal value (`nominalSensors`): these are not judged
 * @returns 1 for every reading at which at least one sensor is frozen, length n [-]
 * @range  any interval of readings below `frozenHours`
 * @source flat-line test, common practice; expected number of runs of n repeats among m pairs, about m·p^n: Feller, An
 *   Introduction to Probability Theory and Its Applications, vol. 1, ch. XIII.7; `isBalanceMoving`
 * @check  tests/core/checks/frozen-sensors.test.ts, tests/core/checks/coarse-loggers.test.ts
 */
export function frozenSensors(
  model: UnitModel,
  { readings, flows }: { readings: ReadingColumns; flows: MassFlows },
  nominal: number,
): Uint8Array {
  const frozen = new Uint8Array(readings.time.length);
  const shortest = model.settings.frozenHours * HOUR_MS;
  BALANCE_SENSORS.forEach((sensor, place) => {
    if (((nominal >> place) & 1) === 1) return;
    const values = readings[sensor];
    for (let start = 0; start < values.length; start++) {
      const end = endOfRun(values, start);
      if (readings.time[end]! - readings.time[start]! >= shortest) {
        markRun(frozen, { start, end }, { model, readings, flows, place, shortest });
      }
      start = end;
    }
  });
  return frozen;
}

/**
 * From when on a change can reach what is judged frozen.
 *
 * @param since instant of the change [ms]
 * @returns start of the UTC day before [ms]
 * @range  any
 * @source none: see `frozenSensors`
 * @check  tests/core/checks/first-reached.test.ts
 */
export function frozenReachedFrom(since: number): number {
  return (Math.floor(since / DAY_MS) - 1) * DAY_MS;
}

/** Where the run ends that begins at an index; readings without a value neither end it nor lengthen it. */
function endOfRun(values: Float64Array, start: number): number {
  let end = start;
  const value = values[start]!;
  if (Number.isNaN(value)) return end;
  for (let i = start + 1; i < values.length; i++) {
    if (values[i] === value) end = i;
    else if (!Number.isNaN(values[i]!)) break;
  }
  return end;
}

type Context = {
  model: UnitModel;
  readings: ReadingColumns;
  flows: MassFlows;
  place: number;
  shortest: number;
};

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
  if (time[part.end]! - time[part.start]! < context.shortest) return false;
  return hasMovement(window, part, context) && isNoChance(window, part, context);
}

/**
 * Whether so many repeats in a row are unusual beside the rest of the window. A sensor that mostly repeats itself, being
 * coarse or logged by exception, lingers for long in earnest: of its standstills only the heat balance can tell.
 */
function isNoChance(window: Run, part: Run, context: Context): boolean {
  const { pairs, repeats, inRun } = countRepeats(
    context.readings[BALANCE_SENSORS[context.place]!],
    window,
    part,
  );
  // One repeat and one change more than seen: the rule of succession.
  const share = (repeats + 1) / (pairs + 2);
  if (pairs >= FEWEST_PAIRS && share <= MOST_REPEATS) return (pairs + inRun) * share ** inRun < CHANCE;
  const standstill = {
    ...context,
    from: part.start,
    to: part.end + 1,
    steps: smallestSteps(window, context),
  };
  return isBalanceMoving(standstill) ?? (pairs === 0 && (inRun + 1) * 0.5 ** inRun < CHANCE);
}

function countRepeats(values: Float64Array, window: Run, part: Run) {
  let pairs = 0;
  let repeats = 0;
  let inRun = 0;
  let last = Number.NaN;
  for (let i = window.start; i <= window.end; i++) {
    const value = values[i]!;
    if (Number.isNaN(value)) continue;
    if (i > part.start && i <= part.end) inRun++;
    else if (!Number.isNaN(last)) {
      pairs++;
      if (value === last) repeats++;
    }
    last = value;
  }
  return { pairs, repeats, inRun };
}

/** Smallest step of each sensor in the window; of one that never moved what its uncertainty covers of a resolution. */
function smallestSteps(window: Run, { model, readings }: Context): Float64Array {
  return Float64Array.from(BALANCE_SENSORS, (sensor, place) => {
    const step = resolutionOf(readings[sensor], window);
    if (step > 0) return step;
    return Math.sqrt(12) * standardUncertainty(model.sensors[place]!, readings[sensor][window.start]!);
  });
}

function hasMovement(window: Run, part: Run, { model, readings, place }: Context): boolean {
  return BALANCE_SENSORS.some((sensor, other) => {
    if (other === place) return false;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = part.start; i <= part.end; i++) {
      const value = readings[sensor][i]!;
      if (value < least) least = value;
      if (value > most) most = value;
    }
    const needed = MOVEMENT_MULTIPLE * standardUncertainty(model.sensors[other]!, most);
    return most - least > needed && most - least > needed + resolutionOf(readings[sensor], window);
  });
}

/** Smallest step between neighbours in the window: what a rounded reading may have moved by without the process. */
function resolutionOf(values: Float64Array, { start, end }: Run): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (let i = start + 1; i <= end; i++) {
    const step = Math.abs(values[i]! - values[i - 1]!);
    if (step > 0 && step < smallest) smallest = step;
  }
  return Number.isFinite(smallest) ? smallest : 0;
}
