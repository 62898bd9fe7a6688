import { BALANCE_SENSORS } from '../exchange/reconcile';
import { enthalpyDrop, enthalpyRise } from '../fouling/enthalpy-change';
import { standardUncertainty, type UnitModel } from '../fouling/unit-model';
import type { ReadingColumns } from '../series/reading-columns';
import type { MassFlows } from './screen-values';

/** Fewest readings with all six sensors to judge from [-]. */
const FEWEST_BALANCES = 8;
/** Scatter over that of neighbouring readings: noise gives 1, and 20 readings of noise more than this in 1 case of 100 [-]. */
const SLOW_RATIO = 2;
/** The balance must move by this many standard uncertainties of the sensor that stands still [-] (own choice). */
const MOVED_MULTIPLE = 2;

/** Readings `from` to before `to`, one of whose sensors, at `place`, stands still. */
type Standstill = {
  model: UnitModel;
  readings: ReadingColumns;
  flows: MassFlows;
  place: number;
  from: number;
  to: number;
  /** Smallest step of each sensor in the days around, in the order of `BALANCE_SENSORS` [°C, kg/s]: what it cannot show. */
  steps: Float64Array;
};

/**
 * Whether the heat balance moved while one of its sensors stood still, slowly and by more than the six sensors' steps and
 * the sensor's own uncertainty explain: then the sensor ought to have moved with the process, and did not.
 *
 * @param standstill readings and the sensor
 * @returns whether it moved; null where too few readings have all six sensors, or the sensor hardly counts in the balance
 * @range  temperatures within the fluids' ranges, others are passed over; where every sensor is rounded to whole kelvins
 *   only swings of several kelvins tell
 * @source mean square of successive differences: von Neumann, Ann. Math. Stat. 12 (1941) 367-395; METHODS §3
 * @check  tests/core/checks/frozen-sensors.test.ts
 */
export function isBalanceMoving(standstill: Standstill): boolean | null {
  const { model, place, steps } = standstill;
  const { imbalances, weights, mean } = balancesOf(standstill);
  const own = Math.abs(weights[place]!);
  if (imbalances.length < FEWEST_BALANCES || own === 0) return null;
  const { variance, noise } = scatter(imbalances);
  const uncertainty = MOVED_MULTIPLE * own * standardUncertainty(model.sensors[place]!, mean);
  const unseen = steps.reduce((sum, step, other) => sum + (weights[other]! * step) ** 2, 0);
  const slow = variance - noise;
  return variance > SLOW_RATIO * noise && slow > unseen && slow > uncertainty * uncertainty;
}

/** Qh − Qc of each reading [W], its mean derivative by each sensor [W/K, W·s/kg] and the mean of the sensor's values. */
function balancesOf({ model, readings, flows, place, from, to }: Standstill) {
  const imbalances: number[] = [];
  const weights = new Float64Array(BALANCE_SENSORS.length);
  let mean = 0;
  for (let i = from; i < to; i++) {
    const [hotIn, hotOut] = [readings.hotIn[i]!, readings.hotOut[i]!];
    const [coldIn, coldOut] = [readings.coldIn[i]!, readings.coldOut[i]!];
    const [hotFlow, coldFlow] = [flows.hot[i]!, flows.cold[i]!];
    if (!areWithin(model.hot, hotIn, hotOut) || !areWithin(model.cold, coldIn, coldOut)) continue;
    const drop = enthalpyDrop(model.hot, hotIn, hotOut);
    const rise = enthalpyRise(model.cold, coldIn, coldOut);
    const imbalance = hotFlow * drop - coldFlow * rise;
    if (!Number.isFinite(imbalance)) continue;
    imbalances.push(imbalance);
    const k = imbalances.length;
    const hotRate = model.phaseChange === 'hot' ? 0 : hotFlow * model.hot.specificHeat(hotIn);
    const coldRate = model.phaseChange === 'cold' ? 0 : coldFlow * model.cold.specificHeat(coldIn);
    const derivatives = [hotRate, -hotRate, coldRate, -coldRate, drop, -rise];
    for (let other = 0; other < derivatives.length; other++)
      weights[other]! += (derivatives[other]! - weights[other]!) / k;
    mean += ([hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow][place]! - mean) / k;
  }
  return { imbalances, weights, mean };
}

function areWithin(
  { minimum, maximum }: { minimum: number; maximum: number },
  one: number,
  other: number,
): boolean {
  return Math.min(one, other) >= minimum && Math.max(one, other) <= maximum;
}

/** Variance, and the part of it that neighbouring values show: noise. */
function scatter(values: number[]): { variance: number; noise: number } {
  const n = values.length;
  const centre = values.reduce((sum, value) => sum + value, 0) / n;
  let squares = 0;
  let successive = 0;
  for (let i = 0; i < n; i++) {
    squares += (values[i]! - centre) ** 2;
    if (i > 0) successive += (values[i]! - values[i - 1]!) ** 2;
  }
  return { variance: squares / (n - 1), noise: successive / (n - 1) / 2 };
}
