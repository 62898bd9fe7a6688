import type { CycleSpan } from '../cycles/split-cycles';
import type { Exchanger } from '../exchange/exchanger';
import { leastSquares } from '../fit/least-squares';
import { makeFluid } from '../fluids/make-fluid';
import type { DailyColumns } from '../series/daily-columns';
import { firstRows, floatColumns } from '../series/float-columns';
import { median } from '../stats/quantile';
import { medianDistance, NORMAL_CONSISTENCY } from '../stats/spread';

/** Days with a figure that are compared lie no further apart than this [days]: growth between them is small (own choice). */
const LONGEST_STEP_DAYS = 3;
/** Fewest comparisons that tell anything, and steps of the figures further out than this many deviations are left out [-]. */
const FEWEST_STEPS = 60;
const OUTLYING = 4;
const TRIMMING_ROUNDS = 3;
/** A dependence is taken out from this many of its standard uncertainties on [-] (own choice: noise gives it to 1 in 10,000). */
const CLEAR = 4;
/** Neighbouring steps share a day, of the figures and of the flows alike: variances are larger by 1 + 2·(−½)·(−½) [-]. */
const SHARED_DAYS = 1.5;
/** More than this share of the clean resistance for a flow e times as large is no exponent's error [-] (own choice). */
const GREATEST_SHARE = 0.3;
/** Figures from which the flows are taken at which a learned reference was learned [-] (its own days). */
const LEARNING_FIGURES = 5;

/** How far the daily fouling resistance follows the flows, which a right clean reference would leave none of. */
export type FlowDependence = {
  /** Change of Rf for a flow e times as large [m²·K/W], and its standard uncertainty; 0 where it is not clear. */
  hot: number;
  cold: number;
  /** Flows at which the clean reference is right whatever its exponents: those it was stated or learned at [kg/s]. */
  hotReference: number;
  coldReference: number;
};

/**
 * What the film exponents leave in the fouling resistance: deposits do not come and go with the flow from one day to the
 * next, so whatever of Rf does, by steps between neighbouring days of a cycle, is an error of the clean reference.
 *
 * @param exchanger the unit
 * @param daily     its daily figures
 * @param spans     its cycles, the running one last: no step is taken across a cleaning
 * @param known     what was found by the same ended cycles before; left out: it is to be found
 * @returns dependence on either flow; null where neither is clear, or a balance of measured values is not there to trust the
 *   flows by
 * @range  flows of both streams measured; 60 pairs of neighbouring days
 * @source first differences take out what changes slowly: Wooldridge, Introductory Econometrics, 5th ed. 2013, sect. 13.3;
 *   exponent error δn leaves −δn·R·ln(ṁ/ṁref) of a film's resistance R (METHODS §5)
 * @check  tests/core/pipeline/flow-dependence.test.ts
 */
export function flowDependence(
  exchanger: Exchanger,
  daily: DailyColumns,
  spans: readonly CycleSpan[],
  known?: { dependence: FlowDependence | null },
): FlowDependence | null {
  if (known !== undefined)
    return known.dependence && { ...known.dependence, ...referenceFlows(exchanger, daily, spans) };
  // The flow of a stream that changes phase follows the duty, and so the fouling.
  const sides = (['hot', 'cold'] as const).filter((side) => makeFluid(exchanger[side]).phaseChange === null);
  // Ended cycles tell it for good; the running one only where there is no other, so that what is known stays as it was.
  const telling = spans.length > 1 ? spans.slice(0, -1) : spans;
  const steps = stepsWithin(daily, telling);
  if (sides.length === 0 || steps.fouling.length < FEWEST_STEPS) return null;
  const found = fitSteps(steps, sides);
  const greatest = GREATEST_SHARE / median(steps.cleanU);
  const clear = (side: 'hot' | 'cold') => {
    const own = found[side];
    const isClear = own !== undefined && Math.abs(own.value) > CLEAR * own.uncertainty;
    return isClear && Math.abs(own.value) < greatest ? own.value : 0;
  };
  const [hot, cold] = [clear('hot'), clear('cold')];
  return hot === 0 && cold === 0 ? null : { hot, cold, ...referenceFlows(exchanger, daily, spans) };
}

/**
 * Daily figures with the fouling resistance as it would be had the flows been those of the clean reference.
 *
 * @param daily      daily figures
 * @param dependence what `flowDependence` found, or null
 * @returns the same columns but for `foulingResistance` [m²·K/W]; the same object for null
 * @range  any
 * @source see `flowDependence`
 * @check  tests/core/pipeline/flow-dependence.test.ts
 */
export function withoutFlowDependence(daily: DailyColumns, dependence: FlowDependence | null): DailyColumns {
  if (dependence === null) return daily;
  const { hot, cold, hotReference, coldReference } = dependence;
  const foulingResistance = daily.foulingResistance.map((value, row) => {
    const ofHot = hot === 0 ? 0 : hot * Math.log(daily.hotMassFlow[row]! / hotReference);
    const ofCold = cold === 0 ? 0 : cold * Math.log(daily.coldMassFlow[row]! / coldReference);
    return value - ofHot - ofCold;
  });
  return { ...daily, foulingResistance };
}

/** From one day with a figure to the next: changes of Rf and of the logarithms of the flows, columns of equal length. */
type Steps = Record<'fouling' | 'hot' | 'cold' | 'cleanU', Float64Array>;

function stepsWithin(daily: DailyColumns, spans: readonly CycleSpan[]): Steps {
  const steps: Steps = floatColumns(['fouling', 'hot', 'cold', 'cleanU'], daily.day.length);
  const { fouling, hot, cold, cleanU } = steps;
  let count = 0;
  for (const { from, to } of spans) {
    let last = -1;
    for (let row = from; row < to; row++) {
      if (Number.isNaN(daily.foulingResistance[row]!) || Number.isNaN(daily.balance[row]!)) continue;
      if (last >= 0 && daily.day[row]! - daily.day[last]! <= LONGEST_STEP_DAYS) {
        fouling[count] = daily.foulingResistance[row]! - daily.foulingResistance[last]!;
        hot[count] = Math.log(daily.hotMassFlow[row]! / daily.hotMassFlow[last]!);
        cold[count] = Math.log(daily.coldMassFlow[row]! / daily.coldMassFlow[last]!);
        cleanU[count++] = daily.cleanU[row]!;
      }
      last = row;
    }
  }
  return firstRows(steps, count);
}

type Found = Partial<Record<'hot' | 'cold', { value: number; uncertainty: number }>>;

/** Least squares of the steps on those of the flows, outlying ones left out. */
function fitSteps({ fouling, ...flows }: Steps, sides: readonly ('hot' | 'cold')[]): Found {
  const all = sides.map((side) => flows[side]);
  let used = Int32Array.from(fouling.keys());
  let fit = fitRows(fouling, all, used);
  for (let round = 0; round < TRIMMING_ROUNDS; round++) {
    const before = used;
    used = rowsWithinReach(residualsOf(fouling, all, fit.parameters));
    if (used.length < FEWEST_STEPS) return {};
    // The same steps give the same line.
    if (used.length === before.length && used.every((row, i) => row === before[i])) break;
    fit = fitRows(fouling, all, used);
  }
  return Object.fromEntries(
    sides.map((side, k) => [
      side,
      { value: fit.parameters[k]!, uncertainty: Math.sqrt(SHARED_DAYS * fit.covariance[k]![k]!) },
    ]),
  );
}

function residualsOf(
  fouling: Float64Array,
  flows: readonly Float64Array[],
  slopes: readonly number[],
): Float64Array {
  const residuals = fouling.slice();
  flows.forEach((flow, k) => {
    for (let i = 0; i < residuals.length; i++) residuals[i]! -= slopes[k]! * flow[i]!;
  });
  return residuals;
}

/** Rows of the residuals that lie no further out than most. */
function rowsWithinReach(residuals: Float64Array) {
  const middle = median(residuals);
  const reach = OUTLYING * NORMAL_CONSISTENCY * medianDistance(residuals, middle);
  const rows = new Int32Array(residuals.length);
  let count = 0;
  for (let i = 0; i < residuals.length; i++) if (Math.abs(residuals[i]! - middle) <= reach) rows[count++] = i;
  return rows.slice(0, count);
}

function fitRows(fouling: Float64Array, flows: readonly Float64Array[], rows: Int32Array) {
  const columns = flows.map((flow) => atRows(flow, rows));
  return leastSquares([...columns, new Float64Array(rows.length).fill(1)], atRows(fouling, rows));
}

function atRows(column: Float64Array, rows: Int32Array): Float64Array {
  const values = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) values[i] = column[rows[i]!]!;
  return values;
}

/** The datasheet is right at its design flows, a learned reference at those of the days after the first cleaning. */
function referenceFlows(exchanger: Exchanger, daily: DailyColumns, spans: readonly CycleSpan[]) {
  const { hotFlow, coldFlow } = exchanger.design;
  const learnt = spans.find(({ start }) => start !== null) ?? spans[0]!;
  const rows: number[] = [];
  for (let row = learnt.from; row < learnt.to && rows.length < LEARNING_FIGURES; row++) {
    if (!Number.isNaN(daily.foulingResistance[row]!)) rows.push(row);
  }
  if (exchanger.clean !== 'learned' || rows.length === 0)
    return { hotReference: hotFlow, coldReference: coldFlow };
  return {
    hotReference: median(rows.map((row) => daily.hotMassFlow[row]!)),
    coldReference: median(rows.map((row) => daily.coldMassFlow[row]!)),
  };
}
