import { type MassFlows, screenValues } from '../checks/screen-values';
import {
  BALANCE_SENSORS,
  type BalanceBuffers,
  type BalanceStreams,
  balanceBuffers,
  linearise,
  weightedSquare,
} from '../exchange/reconcile';
import type { ReadingColumns } from '../series/reading-columns';
import { balanceStreams } from './close-balance';
import { completeState } from './complete-state';
import type { WeightedImbalances } from './explain-imbalance';
import { PLACE, type UnitModel } from './unit-model';

/** Least share of a sensor's variance taken as random: readings are rounded at least [-] (own choice). */
const LEAST_RANDOM_SHARE = 0.01;
/** More readings than this are thinned out evenly: systematic errors limit the answer long before [-] (own choice). */
const MOST_READINGS = 1000;
/**
 * Readings are averaged over this long [ms]: within it conditions hardly vary, and the noise that imbalance and duty share,
 * which would favour one sensor over another by nothing, counts for less the fewer rows there are (own choice).
 */
const BLOCK_MS = 6 * 3_600_000;

/** Weighted imbalances of a period in blocks, with what undoes the weighting. */
export type PeriodImbalances = WeightedImbalances & {
  /** Place of each sensor of `shapes` in `BALANCE_SENSORS`. */
  places: number[];
  /** Reconciled duty times the weight of each block: turns a weighted imbalance into one as share of the duty. */
  duty: Float64Array;
  /** Reciprocal random uncertainty of one reading's imbalance in each block [1/W]. */
  weights: Float64Array;
};

/** Readings of a period, the rows of them that count, and the block of each. */
export type UsedReadings = { readings: ReadingColumns; flows: MassFlows; rows: number[]; blocks: number[] };

/**
 * Picks the rows to fit and puts each into its block of six hours; more than a thousand are thinned out evenly.
 *
 * @param model    the unit
 * @param readings columns of the period, in time order
 * @param rows     rows with a balance, ascending, at least one
 * @returns the rows used and the block of each, from 0 on [-]
 * @range  any
 * @source none: selection only
 * @check  tests/core/fouling/suspects.test.ts
 */
export function usedRows(model: UnitModel, readings: ReadingColumns, rows: number[]): UsedReadings {
  const stride = Math.ceil(rows.length / MOST_READINGS);
  const used = rows.filter((_, n) => n % stride === 0);
  const starts = [...new Set(used.map((i) => Math.floor(readings.time[i]! / BLOCK_MS)))];
  const order = new Map(starts.map((start, block) => [start, block]));
  return {
    readings,
    flows: screenValues(model, readings, new Uint32Array(readings.time.length)),
    rows: used,
    blocks: used.map((i) => order.get(Math.floor(readings.time[i]! / BLOCK_MS))!),
  };
}

/** Means over the blocks of a period, before weighting. */
type Sums = {
  shapes: Float64Array[];
  imbalance: Float64Array;
  duty: Float64Array;
  variance: Float64Array;
  count: Float64Array;
  systematic: Float64Array;
  /** Stays 0 for a sensor taken as exact, and for liquid that only follows the saturation temperature. */
  spread: Float64Array;
};

/**
 * Linearises the imbalances of a period about its readings less given systematic errors, as means over blocks, weighted.
 *
 * @param model   the unit
 * @param used    readings and the rows of them to take
 * @param errors  systematic errors by place [K, share of the flow]
 * @param weights those of another linearisation, so that χ² of one explanation compares with that of another [1/W]
 * @returns weighted imbalances, and what a bias of 1 of each sensor would add to them
 * @range  rows with all six values measured
 * @source first-order expansion of Qh − Qc; weights 1/u²: JCGM 100:2008 (GUM) eq. 10
 * @check  tests/core/fouling/suspects.test.ts
 */
export function weighImbalances(
  model: UnitModel,
  used: UsedReadings,
  errors: Float64Array,
  weights?: Float64Array,
): PeriodImbalances {
  const { shapes, imbalance, duty, variance, count, systematic, spread } = sumBlocks(model, used, errors);
  const own = variance.map((value, block) => weights?.[block] ?? 1 / Math.sqrt(value));
  const weighted = (sums: Float64Array) =>
    sums.map((sum, block) => (sum / count[block]!) * own[block]! * Math.sqrt(count[block]!));
  const places = [...spread.keys()].filter((k) => spread[k]! > 0);
  return {
    places,
    shapes: places.map((k) => weighted(shapes[k]!)),
    systematic: places.map((k) => systematic[k]! / used.rows.length),
    imbalance: weighted(imbalance),
    duty: weighted(duty),
    weights: own,
  };
}

function sumBlocks(
  model: UnitModel,
  { readings, flows, rows, blocks }: UsedReadings,
  errors: Float64Array,
): Sums {
  const buffers = balanceBuffers();
  const { measured, reconciled, uncertainty, gradient } = buffers;
  const sums = makeSums(blocks.at(-1)! + 1);
  rows.forEach((i, n) => {
    const block = blocks[n]!;
    completeState({ model, readings, flows }, i, buffers);
    const streams = balanceStreams(model, buffers);
    sums.imbalance[block]! += linearise(streams, measured, gradient);
    for (let k = 0; k < errors.length; k++) {
      const { systematicShare } = model.sensors[k]!;
      sums.spread[k]! += uncertainty[k]!;
      sums.systematic[k]! += (uncertainty[k]! / sizeOf(k, measured)) * Math.sqrt(systematicShare);
      uncertainty[k]! *= Math.sqrt(Math.max(LEAST_RANDOM_SHARE, 1 - systematicShare));
    }
    freeOfNoise(streams, buffers, errors);
    linearise(streams, reconciled, gradient);
    for (let k = 0; k < errors.length; k++) sums.shapes[k]![block]! += gradient[k]! * sizeOf(k, reconciled);
    sums.duty[block]! += reconciled[PLACE.hotFlow]! * gradient[PLACE.hotFlow]!;
    sums.count[block]! += 1;
    sums.variance[block]! += weightedSquare(gradient, uncertainty);
  });
  for (let block = 0; block < sums.count.length; block++) sums.variance[block]! /= sums.count[block]!;
  return sums;
}

function makeSums(blocks: number): Sums {
  const zeros = () => new Float64Array(blocks);
  const six = () => new Float64Array(BALANCE_SENSORS.length);
  return {
    shapes: BALANCE_SENSORS.map(zeros),
    imbalance: zeros(),
    duty: zeros(),
    variance: zeros(),
    count: zeros(),
    systematic: six(),
    spread: six(),
  };
}

/** What a bias of 1 is to a value: 1 K of a temperature, the whole of a flow. */
function sizeOf(k: number, state: Float64Array): number {
  return k < PLACE.hotFlow ? 1 : state[k]!;
}

/**
 * Writes the reading less its systematic errors to `reconciled`, and of what imbalance is then left takes out what each value
 * shares with the noise of the imbalance as read: shapes that follow the very noise they are fitted to would favour one
 * sensor over another by nothing.
 */
function freeOfNoise(streams: BalanceStreams, buffers: BalanceBuffers, errors: Float64Array): void {
  const { measured, reconciled, uncertainty, gradient } = buffers;
  const variance = weightedSquare(gradient, uncertainty);
  const shared = gradient.map((slope, k) => {
    const scale = k < PLACE.hotFlow ? 1 : 1 + errors[k]!;
    reconciled[k] = k < PLACE.hotFlow ? measured[k]! - errors[k]! : measured[k]! / scale;
    return (uncertainty[k]! * uncertainty[k]! * slope) / (scale * variance);
  });
  const left = linearise(streams, reconciled, gradient);
  for (let k = 0; k < shared.length; k++) reconciled[k]! -= shared[k]! * left;
}
