import { standardUncertainty, type UnitModel } from '../fouling/unit-model';
import { NORMAL_CONSISTENCY } from '../stats/spread';

/** Fewest values around a reading, itself included, for a median to mean anything [-]. */
const FEWEST_IN_WINDOW = 5;
/**
 * Another sensor that deviates by this share of the threshold at the same instant speaks for a change of load [-]:
 * a spike stands alone.
 */
const COMPANION_SHARE = 2 / 3;

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
  for (let place = 0; place < input.columns.length; place++)
    markDeviations({ model, input, place, far, near });
  const marked = new Uint8Array(far.length);
  for (let i = 0; i < far.length; i++) {
    // A spike is a sensor's own: with a companion of any size it is the process that moved.
    if (far[i] !== 0 && near[i] === far[i] && (far[i]! & (far[i]! - 1)) === 0) marked[i] = 1;
  }
  return marked;
}

type Marking = { model: UnitModel; input: SpikeInput; place: number; far: Uint8Array; near: Uint8Array };

/** Sets the sensor's bit in `far` beyond the threshold and in `near` beyond the companion's share of it. */
function markDeviations({ model, input, place, far, near }: Marking): void {
  const { spikeHalfWindow, spikeThreshold } = model.settings;
  const { rows, values, times } = measuredRows(input, place);
  const window = new Float64Array(2 * spikeHalfWindow + 1);
  for (let p = 0; p < values.length; p++) {
    const value = values[p]!;
    let first = Math.max(0, p - spikeHalfWindow);
    let last = Math.min(values.length - 1, p + spikeHalfWindow);
    while (times[p]! - times[first]! > input.reach) first++;
    while (times[last]! - times[p]! > input.reach) last--;
    if (last - first + 1 < FEWEST_IN_WINDOW) continue;
    const at = { values, first, last, p, share: COMPANION_SHARE * spikeThreshold };
    const floor = standardUncertainty(model.sensors[place]!, value);
    let score = deviation(window, { ...at, floor });
    // Seldom looked at: a value that is rounded coarsely stands for anything half a step away.
    if (score > at.share) {
      const halfStep = smallestStep(at) / 2;
      if (halfStep > floor) score = deviation(window, { ...at, floor: halfStep });
    }
    if (score > spikeThreshold) far[rows[p]!]! |= 1 << place;
    if (score > at.share) near[rows[p]!]! |= 1 << place;
  }
}

/** The usable readings at which one sensor has a value. Loops: the built-in `filter` and `from` take ten times as long. */
function measuredRows({ rows, columns, time }: SpikeInput, place: number) {
  const column = columns[place]!;
  const kept = new Int32Array(rows.length);
  const values = new Float64Array(rows.length);
  const times = new Float64Array(rows.length);
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

/** One value among those around it (`first` to `last`): `floor` is its own uncertainty, below `share` of it nothing matters. */
type Place = { values: Float64Array; first: number; last: number; p: number; floor: number; share: number };

function deviation(room: Float64Array, at: Place): number {
  return Math.max(deviationFromWindow(room, at), deviationFromNeighbours(room, at));
}

/** Smallest step between neighbours, 0 where there is none. */
function smallestStep({ values, first, last }: Pick<Place, 'values' | 'first' | 'last'>): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (let j = first; j < last; j++) {
    const step = Math.abs(values[j + 1]! - values[j]!);
    if (step > 0 && step < smallest) smallest = step;
  }
  return smallest === Number.POSITIVE_INFINITY ? 0 : smallest;
}

/** Distance from the window's median in units of its scaled median absolute deviation, or of the floor where that is larger. */
function deviationFromWindow(room: Float64Array, { values, first, last, p, floor, share }: Place): number {
  const limit = share * floor;
  const value = values[p]!;
  const half = (last - first + 1) >> 1;
  let near = 0;
  for (let j = first; j <= last; j++) {
    // Where most of the window lies within the limit of the value, so does its median. Saves sorting nearly always.
    if (Math.abs(values[j]! - value) <= limit && ++near > half) return 0;
  }
  const sorted = room.subarray(0, last - first + 1);
  for (let j = first; j <= last; j++) sorted[j - first] = values[j]!;
  const centre = sortedMedian(sorted);
  return Math.abs(value - centre) / Math.max(scaleAbout(sorted, centre), floor);
}

/**
 * Distance from the nearer of its two neighbours where it stands out from both to the same side (the median of three), in
 * units of the noise that the window's steps show. A moving process hides no spike from this, and a step is none.
 */
function deviationFromNeighbours(
  room: Float64Array,
  { values, first, last, p, floor, share }: Place,
): number {
  const limit = share * floor;
  if (p === first || p === last) return 0;
  const before = values[p]! - values[p - 1]!;
  const after = values[p]! - values[p + 1]!;
  const distance = before * after > 0 ? Math.min(Math.abs(before), Math.abs(after)) : 0;
  if (distance <= limit) return 0;
  const steps = room.subarray(0, last - first);
  for (let j = first; j < last; j++) steps[j - first] = values[j + 1]! - values[j]!;
  const noise = scaleAbout(steps, sortedMedian(steps)) / Math.SQRT2;
  return distance / Math.max(noise, floor);
}

function scaleAbout(values: Float64Array, centre: number): number {
  for (let j = 0; j < values.length; j++) values[j] = Math.abs(values[j]! - centre);
  return NORMAL_CONSISTENCY * sortedMedian(values);
}

/** Sorts by insertion, which for a dozen values is several times as fast as the built-in sort. */
function sortedMedian(values: Float64Array): number {
  for (let i = 1; i < values.length; i++) {
    const value = values[i]!;
    let j = i - 1;
    while (j >= 0 && values[j]! > value) {
      values[j + 1] = values[j]!;
      j--;
    }
    values[j + 1] = value;
  }
  const middle = values.length >>> 1;
  return values.length % 2 === 1 ? values[middle]! : (values[middle - 1]! + values[middle]!) / 2;
}
