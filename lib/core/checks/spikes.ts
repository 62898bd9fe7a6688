import { standardUncertainty, type UnitModel } from '../fouling/unit-model';
import {
  makeSortedWindow,
  moveWindow,
  type SortedWindow,
  windowMedian,
  windowScale,
} from '../stats/sorted-window';
import { NORMAL_CONSISTENCY } from '../stats/spread';

/** Fewest values around a reading, itself included, for a median to mean anything [-]. */
const FEWEST_IN_WINDOW = 5;
/**
 * Another sensor that deviates by this share of the threshold at the same instant speaks for a change of load [-]:
 * a spike stands alone.
 */
const COMPANION_SHARE = 2 / 3;
/** Share of a distance by which rounding may decide otherwise, with room to spare [-]. */
const ROUNDING = 1e-12;

/** The columns screened together, in the order of `BALANCE_SENSORS`, over the readings named in `rows`. */
export type SpikeInput = {
  time: Float64Array;
  columns: readonly Float64Array[];
  /** Indices of the readings whose values are usable, ascending. */
  rows: Int32Array;
  /** Neighbours further away than this do not count [ms]. */
  reach: number;
};

/**
 * Marks readings in which a single sensor stands out while no other does: from the median of its neighbours (Hampel), or
 * from both its nearest neighbours to the same side, by more than the threshold times the larger of the local scale (scaled
 * median absolute deviation of values, or of steps), its own standard uncertainty and half its resolution.
 *
 * @param model unit with its settings (`spikeHalfWindow` [readings], `spikeThreshold` [-]) and sensor uncertainties
 * @param input temperatures [°C] and mass flows [kg/s], NaN = not measured
 * @returns 1 for every reading with a spike, length n [-]
 * @range  windows of fewer than five values are not judged
 * @source Pearson, Outliers in process modeling and identification, IEEE Trans. Control Syst. Technol. 10 (2002) 55-63 (Hampel
 *   identifier); median of three: Tukey, Exploratory Data Analysis, 1977, ch. 7
 * @check  tests/core/checks/spikes.test.ts
 */
export function spikes(model: UnitModel, input: SpikeInput): Uint8Array {
  const far = new Uint8Array(input.time.length);
  const near = new Uint8Array(input.time.length);
  const room = makeRoom(input.rows.length);
  for (let place = 0; place < input.columns.length; place++)
    markDeviations({ model, input, place, far, near, room });
  const marked = new Uint8Array(far.length);
  for (let i = 0; i < far.length; i++) {
    // A spike is a sensor's own: with a companion of any size it is the process that moved.
    if (far[i] !== 0 && near[i] === far[i] && (far[i]! & (far[i]! - 1)) === 0) marked[i] = 1;
  }
  return marked;
}

/**
 * From when on a change after some readings can reach what is judged a spike: as many values of each sensor back as its windows hold.
 *
 * @param model unit with its settings (`spikeHalfWindow` [readings])
 * @param input readings before the change, within reach of it
 * @returns instant of the first of them that is reached [ms]; null where none is
 * @range  any
 * @source none: see `spikes`
 * @check  tests/core/checks/first-reached.test.ts
 */
export function spikesReachedFrom(model: UnitModel, input: Omit<SpikeInput, 'reach'>): number | null {
  const room = makeRoom(input.rows.length);
  let earliest: number | null = null;
  for (let place = 0; place < input.columns.length; place++) {
    const { values, times } = measuredRows(input, place, room);
    if (values.length === 0) continue;
    const first = times[Math.max(0, values.length - model.settings.spikeHalfWindow)]!;
    earliest = Math.min(earliest ?? first, first);
  }
  return earliest;
}

type Marking = {
  model: UnitModel;
  input: SpikeInput;
  place: number;
  far: Uint8Array;
  near: Uint8Array;
  room: Measured;
};

/** Readings at which one sensor has a value: which, the value [°C, kg/s] and the instant [ms]; room for one sensor after another. */
type Measured = { rows: Int32Array; values: Float64Array; times: Float64Array };

function makeRoom(length: number): Measured {
  return {
    rows: new Int32Array(length),
    values: new Float64Array(length),
    times: new Float64Array(length),
  };
}

/** Sets the sensor's bit in `far` beyond the threshold and in `near` beyond the companion's share of it. */
function markDeviations({ model, input, place, far, near, room }: Marking): void {
  const { spikeHalfWindow, spikeThreshold } = model.settings;
  const sensor = model.sensors[place]!;
  const { rows, values, times } = measuredRows(input, place, room);
  const share = COMPANION_SHARE * spikeThreshold;
  const window = makeSortedWindow(2 * spikeHalfWindow + 1);
  const series = { values, window, steps: new Float64Array(2 * spikeHalfWindow), share };
  for (let p = 0; p < values.length; p++) {
    placeWindow(window, { values, times, reach: input.reach }, { p, half: spikeHalfWindow });
    if (window.last - window.first + 1 < FEWEST_IN_WINDOW) continue;
    const value = values[p]!;
    const floor = standardUncertainty(sensor, value);
    // Nearly every value lies well within its own uncertainty of the median, and of a neighbour: no more is asked of those.
    const surely = (1 - ROUNDING) * share * floor;
    if (Math.abs(value - windowMedian(window)) < surely && distanceFromNeighbours(values, window, p) < surely)
      continue;
    let score = deviation(series, p, floor);
    // Seldom looked at: a value that is rounded coarsely stands for anything half a step away.
    if (score > share) {
      const halfStep = smallestStep(values, window) / 2;
      if (halfStep > floor) score = deviation(series, p, halfStep);
    }
    if (score > spikeThreshold) far[rows[p]!]! |= 1 << place;
    if (score > share) near[rows[p]!]! |= 1 << place;
  }
}

/** Puts the window around a value: as many to each side, none beyond the reach. */
function placeWindow(
  window: SortedWindow,
  { values, times, reach }: { values: Float64Array; times: Float64Array; reach: number },
  { p, half }: { p: number; half: number },
): void {
  const now = times[p]!;
  let first = Math.max(window.first, p - half);
  while (now - times[first]! > reach) first++;
  const end = Math.min(values.length - 1, p + half);
  let last = window.last;
  while (last < end && times[last + 1]! - now <= reach) last++;
  moveWindow(window, values, first, last);
}

/** The usable readings at which one sensor has a value. Loops: the built-in `filter` and `from` take ten times as long. */
function measuredRows(
  { rows, columns, time }: Omit<SpikeInput, 'reach'>,
  place: number,
  room: Measured,
): Measured {
  const column = columns[place]!;
  const { rows: kept, values, times } = room;
  let count = 0;
  for (let j = 0; j < rows.length; j++) {
    const row = rows[j]!;
    if (Number.isNaN(column[row]!)) continue;
    kept[count] = row;
    values[count] = column[row]!;
    times[count] = time[row]!;
    count++;
  }
  return { rows: kept, values: values.subarray(0, count), times };
}

/** One sensor's values and the window about one of them; below `share` of a floor nothing matters; `steps` is room. */
type Series = { values: Float64Array; window: SortedWindow; steps: Float64Array; share: number };

/** How far a value stands out, in units of the local scale or of its own uncertainty, the floor, where that is larger. */
function deviation(series: Series, p: number, floor: number): number {
  return Math.max(deviationFromWindow(series, p, floor), deviationFromNeighbours(series, p, floor));
}

/** Smallest step between neighbours, 0 where there is none. */
function smallestStep(values: Float64Array, { first, last }: SortedWindow): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (let j = first; j < last; j++) {
    const step = Math.abs(values[j + 1]! - values[j]!);
    if (step > 0 && step < smallest) smallest = step;
  }
  return smallest === Number.POSITIVE_INFINITY ? 0 : smallest;
}

/** Distance from the window's median in units of its scaled median absolute deviation, or of the floor; 0 below the share. */
function deviationFromWindow({ values, window, share }: Series, p: number, floor: number): number {
  const value = values[p]!;
  const score = Math.abs(value - windowMedian(window)) / Math.max(windowScale(window), floor);
  if (!(score > share)) return 0;
  // Where most of the window lies within the limit of the value, so does its median, whatever rounding says.
  const limit = share * floor;
  let near = 0;
  for (let j = window.first; j <= window.last; j++) if (Math.abs(values[j]! - value) <= limit) near++;
  return near > (window.last - window.first + 1) >> 1 ? 0 : score;
}

/**
 * Distance from the nearer of its two neighbours where it stands out from both to the same side (the median of three), in
 * units of the noise that the window's steps show. A moving process hides no spike from this, and a step is none.
 */
function deviationFromNeighbours({ values, window, steps, share }: Series, p: number, floor: number): number {
  const distance = distanceFromNeighbours(values, window, p);
  if (distance <= share * floor) return 0;
  const { first, last } = window;
  const count = last - first;
  for (let j = 0; j < count; j++) steps[j] = values[first + j + 1]! - values[first + j]!;
  const centre = sortedMedian(steps, count);
  for (let j = 0; j < count; j++) steps[j] = Math.abs(steps[j]! - centre);
  const noise = (NORMAL_CONSISTENCY * sortedMedian(steps, count)) / Math.SQRT2;
  return distance / Math.max(noise, floor);
}

/** How far a value stands out from both its neighbours to the same side; 0 where it does not. */
function distanceFromNeighbours(values: Float64Array, { first, last }: SortedWindow, p: number): number {
  if (p === first || p === last) return 0;
  const before = values[p]! - values[p - 1]!;
  const after = values[p]! - values[p + 1]!;
  return before * after > 0 ? Math.min(Math.abs(before), Math.abs(after)) : 0;
}

/** Sorts the first of the values by insertion, which for a dozen is several times as fast as the built-in sort. */
function sortedMedian(values: Float64Array, count: number): number {
  for (let i = 1; i < count; i++) {
    const value = values[i]!;
    let j = i - 1;
    while (j >= 0 && values[j]! > value) {
      values[j + 1] = values[j]!;
      j--;
    }
    values[j + 1] = value;
  }
  const middle = count >>> 1;
  return count % 2 === 1 ? values[middle]! : (values[middle - 1]! + values[middle]!) / 2;
}
