import type { PropertiesInto } from '../fluids/fluid';
import { FLOW_SENSORS, type FlowSensor, TEMPERATURE_SENSORS, type TemperatureSensor } from './exchanger';

/** Order of the six measurements in every array here: the four temperatures [°C], then the two mass flows [kg/s]. */
export const BALANCE_SENSORS: readonly (TemperatureSensor | FlowSensor)[] = [
  ...TEMPERATURE_SENSORS,
  ...FLOW_SENSORS,
];

/** Enthalpy [J/kg] and its slope [J/(kg·K)] over temperature [°C] at one terminal. */
export type EnthalpyCurve = {
  enthalpy: (temperature: number) => number;
  slope: (temperature: number) => number;
  /** Both at once, the very same figures, where that is faster. */
  into?: PropertiesInto;
};

/** Curves of the four terminals; a stream without phase change has the same at both, a condensing one vapour at its inlet. */
export type BalanceStreams = Record<TemperatureSensor, EnthalpyCurve>;

/** Room for one balance, made once and used for every reading of a column. */
export type BalanceBuffers = {
  /** In: the six measurements and their standard uncertainties [°C, kg/s]. */
  measured: Float64Array;
  uncertainty: Float64Array;
  /** Out: the six reconciled values [°C, kg/s]. */
  reconciled: Float64Array;
  /** Out: derivative of the imbalance to each measurement at the reconciled state [W/K, J/kg]. */
  gradient: Float64Array;
  /** Out: `IMBALANCE` Qh − Qc as measured [W], `IMBALANCE_VARIANCE` [W²], `CHI_SQUARED` imbalance² / variance [-]. */
  statistics: Float64Array;
};

export const IMBALANCE = 0;
export const IMBALANCE_VARIANCE = 1;
export const CHI_SQUARED = 2;

/** Largest imbalance left, as a share of the duty [-]. */
const CLOSURE = 1e-12;
/** The same as a share of the imbalance's own uncertainty [-]: where the duty nearly vanishes, rounding of enthalpies allows no more. */
const CLOSURE_IN_UNCERTAINTY = 1e-11;
/** Largest last change, in standard uncertainties [-]: far below anything a result shows. */
const STEP = 1e-9;
const MAXIMUM_ITERATIONS = 50;

/**
 * Buffers for `reconcileBalance`.
 *
 * @returns arrays of zeros in the order of `BALANCE_SENSORS` [-]
 * @range none
 * @source none: room only
 * @check tests/core/exchange/reconcile.test.ts
 */
export function balanceBuffers(): BalanceBuffers {
  const six = () => new Float64Array(BALANCE_SENSORS.length);
  return {
    measured: six(),
    uncertainty: six(),
    reconciled: six(),
    gradient: six(),
    statistics: new Float64Array(3),
  };
}

/**
 * Least adjustment, in units of each sensor's standard uncertainty, of the six measurements that closes the heat balance
 * ṁh·(h(Thi) − h(Tho)) = ṁc·(h(Tco) − h(Tci)): weighted least squares with one constraint, linearised anew until closed.
 *
 * One balance cannot tell which of six sensors is wrong: every standardised adjustment has the same size, √χ².
 *
 * @param streams enthalpy curves of the four terminals [J/kg, J/(kg·K)]
 * @param buffers `measured` and `uncertainty` (≥ 0) filled in [°C, kg/s]; the other arrays are written
 * @returns true when closed to 1e-12 of the duty; false, with NaN in `reconciled`, when it cannot be (a temperature outside
 *   the fluid's range, no uncertainty to share the imbalance)
 * @range any; χ² is NaN when its variance is 0
 * @source Romagnoli & Sánchez, Data Processing and Reconciliation for Chemical Process Operations, 2000, ch. 5; global test: Almásy &
 *   Sztanó, Probl. Control Inf. Theory 4 (1975) 57-69
 * @check tests/core/exchange/reconcile.test.ts
 */
export function reconcileBalance(streams: BalanceStreams, buffers: BalanceBuffers): boolean {
  const { measured, reconciled, gradient } = buffers;
  for (let k = 0; k < 6; k++) reconciled[k] = measured[k]!;
  return reconcileFrom(streams, buffers, linearise(streams, measured, gradient));
}

/**
 * `reconcileBalance` of a reading whose imbalance has just been worked out.
 *
 * @param streams  as `reconcileBalance`
 * @param buffers  likewise, `reconciled` as measured and `gradient` at the measured state
 * @param measuredImbalance Qh − Qc as measured, from `linearise` [W]
 * @returns as `reconcileBalance`
 * @range any
 * @source see `reconcileBalance`
 * @check tests/core/exchange/reconcile.test.ts
 */
export function reconcileFrom(
  streams: BalanceStreams,
  buffers: BalanceBuffers,
  measuredImbalance: number,
): boolean {
  const { measured, uncertainty, reconciled, gradient, statistics } = buffers;
  let imbalance = measuredImbalance;
  let variance = weightedSquare(gradient, uncertainty);
  statistics[IMBALANCE] = imbalance;
  statistics[IMBALANCE_VARIANCE] = variance;
  statistics[CHI_SQUARED] = (imbalance * imbalance) / variance;
  if (imbalance === 0 || (variance === 0 && isClosed(imbalance, variance, buffers))) return true;
  for (let i = 0; i < MAXIMUM_ITERATIONS && variance > 0; i++) {
    // Imbalance of the tangent plane at the measurements, to be undone along V·gradient.
    let tangent = imbalance;
    for (let k = 0; k < 6; k++) tangent += gradient[k]! * (measured[k]! - reconciled[k]!);
    const step = adjust(buffers, tangent / variance);
    imbalance = linearise(streams, reconciled, gradient);
    variance = weightedSquare(gradient, uncertainty);
    if (step <= STEP && isClosed(imbalance, variance, buffers)) return true;
  }
  reconciled.fill(Number.NaN);
  return false;
}

/** Puts `reconciled` at measured − multiplier·V·gradient; the largest change in standard uncertainties. */
function adjust({ measured, uncertainty, reconciled, gradient }: BalanceBuffers, multiplier: number): number {
  let largest = 0;
  for (let k = 0; k < 6; k++) {
    const sigma = uncertainty[k]!;
    if (sigma === 0) continue;
    const next = measured[k]! - multiplier * sigma * sigma * gradient[k]!;
    const change = Math.abs(next - reconciled[k]!) / sigma;
    // Math.max keeps a NaN, so that a state outside a fluid's range never counts as converged.
    largest = Math.max(largest, change);
    reconciled[k] = next;
  }
  return largest;
}

/**
 * Imbalance Qh − Qc at a state and its derivatives to the six values.
 *
 * @param streams  enthalpy curves of the four terminals [J/kg, J/(kg·K)]
 * @param state    six values in the order of `BALANCE_SENSORS` [°C, kg/s]
 * @param gradient written [W/K, J/kg]
 * @returns [W]; NaN outside a fluid's range
 * @range any
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eqs. 11.6 and 11.7
 * @check tests/core/exchange/reconcile.test.ts
 */
export function linearise(streams: BalanceStreams, state: Float64Array, gradient: Float64Array): number {
  const hotFlow = state[4]!;
  const coldFlow = state[5]!;
  writeHeat(streams.hotIn, state, 0);
  writeHeat(streams.hotOut, state, 1);
  writeHeat(streams.coldIn, state, 2);
  writeHeat(streams.coldOut, state, 3);
  const hotDrop = HEATS[0]! - HEATS[2]!;
  const coldRise = HEATS[6]! - HEATS[4]!;
  gradient[0] = hotFlow * HEATS[1]!;
  gradient[1] = -hotFlow * HEATS[3]!;
  gradient[2] = coldFlow * HEATS[5]!;
  gradient[3] = -coldFlow * HEATS[7]!;
  gradient[4] = hotDrop;
  gradient[5] = -coldRise;
  return hotFlow * hotDrop - coldFlow * coldRise;
}

/** Enthalpy and slope of each of the four temperatures, of one linearisation only [J/kg, J/(kg·K)]. */
const HEATS = new Float64Array(8);

function writeHeat(curve: EnthalpyCurve, state: Float64Array, k: number): void {
  if (curve.into !== undefined) {
    curve.into(state, k, HEATS, 2 * k);
    return;
  }
  HEATS[2 * k] = curve.enthalpy(state[k]!);
  HEATS[2 * k + 1] = curve.slope(state[k]!);
}

/**
 * Variance of the imbalance from the uncertainties of the six values.
 *
 * @param gradient    derivatives of the imbalance [W/K, J/kg]
 * @param uncertainty standard uncertainties [K, kg/s]
 * @returns [W²]
 * @range any
 * @source JCGM 100:2008 (GUM) eq. 10
 * @check tests/core/exchange/reconcile.test.ts
 */
export function weightedSquare(gradient: Float64Array, uncertainty: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < 6; k++) {
    const part = gradient[k]! * uncertainty[k]!;
    sum += part * part;
  }
  return sum;
}

function isClosed(imbalance: number, variance: number, { reconciled, gradient }: BalanceBuffers): boolean {
  const duty = (Math.abs(reconciled[4]! * gradient[4]!) + Math.abs(reconciled[5]! * gradient[5]!)) / 2;
  return Math.abs(imbalance) <= Math.max(CLOSURE * duty, CLOSURE_IN_UNCERTAINTY * Math.sqrt(variance));
}
