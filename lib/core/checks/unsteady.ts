import { PLACE, standardUncertainty, type UnitModel } from '../fouling/unit-model';
import {
  CRITICAL_RATIO,
  makeSteadyRatio,
  RATIO_WARM_UP,
  type SteadyRatio,
  steadyRatio,
} from './steady-ratio';
import { makeThinnedSeries, type ThinnedSeries, thin } from './thinned-series';

const MINUTE_MS = 60_000;
/** Filters begin anew each half day of UTC, led in from at most half a day before: no reading reaches further than a day. */
const HALF_DAY_MS = 43_200_000;
/** No reading has an effect on the steadiness of another further away than this [ms]. */
export const STEADY_REACH_MS = 2 * HALF_DAY_MS;
/** Values in a settling time that the ratio is judged from; readings that come faster are averaged [-] (own choice). */
const VALUES_PER_SETTLING = 10;
/**
 * Movement within a settling time that matters, as share of the temperature change of its stream, or of the flow [-]. Three
 * time constants make a settling time, so that contents and walls then hold back about a sixtieth of the duty (own choice).
 */
const STORAGE_SHARE = 0.05;
/** Values that the filters are led through before a half day, more than they remember [-]. */
const LEAD_IN = 3 * RATIO_WARM_UP;

/** The columns judged, in the order of `BALANCE_SENSORS`: temperatures [°C], mass flows [kg/s], NaN = not measured. */
export type SteadyInput = {
  time: Float64Array;
  columns: readonly Float64Array[];
  /** Indices of the readings whose values are true ones, ascending, among them those of a unit that stands still. */
  rows: Int32Array;
  /** Bits of sensors that hold a nominal value (`nominalSensors`): these are not judged. */
  nominal: number;
};

/**
 * Marks readings taken while a sensor's value moves faster than the exchanger settles: within the settling time before, it
 * moved by more than the multiple of its standard uncertainty, and by enough to matter for the duty. Between readings
 * further apart the movement is taken as even, for nobody knows when in the interval it happened. Where readings come
 * faster than the unit settles, noise about a level is no movement, however wide: there the ratio test must agree.
 *
 * @param model unit with its settings (`settlingMinutes` [min], `steadyMultiple` [-]) and sensor uncertainties
 * @param input columns of length n
 * @returns 1 for every reading that is not steady, length n [-]; none where `settlingMinutes` is 0
 * @range  any interval of readings; a reading's effect ends before the end of the next UTC day, or at the next reading
 * @source Cao & Rhinehart, J. Process Control 5 (1995) 363-374 (ratio test); storage C·dT/dt against the duty: own choice
 * @check  tests/core/checks/unsteady.test.ts
 */
export function unsteady(model: UnitModel, input: SteadyInput): Uint8Array {
  const marked = new Uint8Array(input.time.length);
  const settling = model.settings.settlingMinutes * MINUTE_MS;
  if (settling === 0) return marked;
  const series = makeThinnedSeries(input.rows.length);
  for (let place = 0; place < input.columns.length; place++) {
    if (((input.nominal >> place) & 1) === 1) continue;
    const { time, rows } = input;
    thin(series, { time, column: input.columns[place]!, chosen: rows }, settling / VALUES_PER_SETTLING);
    markMoving(marked, { model, input, place, settling, series });
  }
  return marked;
}

/**
 * From when on a change can reach what is judged unsteady: the mean of its own period, and the value before it.
 *
 * @param model unit with its settings (`settlingMinutes` [min])
 * @param since instant of the change, or of another mark of a reading [ms]
 * @returns [ms]; two settling times earlier, STEADY_REACH_MS at most: more than one and two periods of the means, which is as far
 *   as it goes
 * @range  any
 * @source none: see `unsteady`
 * @check  tests/core/checks/first-reached.test.ts
 */
export function steadyReachedFrom(model: UnitModel, since: number): number {
  return since - Math.min(STEADY_REACH_MS, 2 * model.settings.settlingMinutes * MINUTE_MS);
}

type Judging = {
  model: UnitModel;
  input: SteadyInput;
  place: number;
  settling: number;
  series: ThinnedSeries;
};

function markMoving(marked: Uint8Array, judging: Judging): void {
  const { model, place, settling, series } = judging;
  const { times, values, count } = series;
  const { steadyMultiple } = model.settings;
  const sensor = model.sensors[place]!;
  let ratios: Uint8Array | null = null;
  let first = 0;
  for (let k = 1; k < count; k++) {
    // The first value within the settling time, and the last one before.
    while (times[k]! - times[first]! >= settling) first++;
    const value = values[k]!;
    let moved = Math.abs(value - values[first]!);
    let scale = 1;
    if (first > 0 && times[k]! - times[first - 1]! <= STEADY_REACH_MS) {
      const interval = settling / (times[k]! - times[first - 1]!);
      const before = Math.abs(value - values[first - 1]!) * interval;
      if (before >= moved) {
        moved = before;
        scale = interval;
      }
    }
    // A difference of two values is uncertain by √2 of one's.
    const noise = standardUncertainty(sensor, value) * Math.max(1, Math.SQRT2 * scale);
    if (!(moved > steadyMultiple * noise) || !matters(judging, k, moved)) continue;
    ratios ??= ratioVerdicts(judging);
    if (ratios[k] === STEADY) continue;
    for (let j = series.starts[k]!; j < series.starts[k + 1]!; j++) marked[series.rows[j]!] = 1;
  }
}

/** Whether a movement within a settling time is a notable share of what the duty of its side rests on. */
function matters({ model, input, place, series }: Judging, k: number, moved: number): boolean {
  if (place >= PLACE.hotFlow) return moved > STORAGE_SHARE * Math.abs(series.values[k]!);
  const row = series.rows[series.starts[k]!]!;
  const isHot = place === PLACE.hotIn || place === PLACE.hotOut;
  const read = (at: number) => input.columns[at]![row]!;
  const change = isHot ? read(PLACE.hotIn) - read(PLACE.hotOut) : read(PLACE.coldOut) - read(PLACE.coldIn);
  // A stream that changes phase hardly changes its temperature: there the distance of the inlets counts.
  const isOwn = model.phaseChange !== (isHot ? 'hot' : 'cold') && !Number.isNaN(change);
  const whole = isOwn ? change : read(PLACE.hotIn) - read(PLACE.coldIn);
  return !(moved <= STORAGE_SHARE * Math.abs(whole));
}

const STEADY = 1;
/** What the ratio test says of each value: STEADY; or 0 where it does not, or cannot judge. */
function ratioVerdicts({ series, settling }: Judging): Uint8Array {
  const { times, values, count } = series;
  const verdicts = new Uint8Array(count);
  const state = makeSteadyRatio();
  for (let k = 0; k < count; k++) {
    if (k > 0 && times[k]! - times[k - 1]! > settling) state.count = 0;
    else if (k > 0 && halfDay(times[k]!) !== halfDay(times[k - 1]!)) leadIn(state, series, k, settling);
    const ratio = steadyRatio(state, values[k]!);
    if (state.count <= RATIO_WARM_UP) continue;
    if (ratio <= CRITICAL_RATIO) verdicts[k] = STEADY;
    // The first value after a shift raises both estimates alike: only the next one tells.
    else verdicts[k - 1] = 0;
  }
  return verdicts;
}

function halfDay(time: number): number {
  return Math.floor(time / HALF_DAY_MS);
}

/** Leads the filters to a value from a fixed distance before it, whatever they have taken so far. */
function leadIn(state: SteadyRatio, { times, values }: ThinnedSeries, k: number, settling: number): void {
  const earliest = (halfDay(times[k]!) - 1) * HALF_DAY_MS;
  let from = k;
  while (
    from > 0 &&
    k - from < LEAD_IN &&
    times[from - 1]! >= earliest &&
    times[from]! - times[from - 1]! <= settling
  )
    from--;
  state.count = 0;
  for (let j = from; j < k; j++) steadyRatio(state, values[j]!);
}
