import { effectiveness } from '../exchange/effectiveness';
import type { BalanceBuffers } from '../exchange/reconcile';
import { NONE_INFERRED } from './complete-state';
import type { Rating } from './conductance-figures';
import type { EvaluationColumns } from './evaluation-columns';
import { PLACE, type UnitModel } from './unit-model';

/** Step for the slopes of the effectiveness, as a share of NTU or of Cr [-]. */
const STEP = 1e-5;
const SIX = 6;

/** Room for the sensitivities of one reading to its six values, made once and used for each. */
export type Sensitivities = { duty: Float64Array; logU: Float64Array; fouling: Float64Array };

/**
 * Room for `propagate`.
 *
 * @returns arrays of six zeros [-]
 * @range  none
 * @source none: room only
 * @check  tests/core/fouling/uncertainty.test.ts
 */
export function makeSensitivities(): Sensitivities {
  return { duty: new Float64Array(SIX), logU: new Float64Array(SIX), fouling: new Float64Array(SIX) };
}

/** One rated reading: its row, buffers with state and gradient of the balance, and the sensor inferred. */
export type Rated = {
  columns: EvaluationColumns;
  i: number;
  buffers: BalanceBuffers;
  rating: Rating;
  inferred: number;
  sensitivities: Sensitivities;
};

/**
 * Standard uncertainties of duty, U and Rf by first-order propagation from the sensors, and the systematic part of u(Rf).
 *
 * Closing the balance moves every value, so the sensitivity to a sensor is that of the result through the reconciled (or
 * inferred) state: s = f − λ·g with g the gradient of the balance and λ = Σf·V·g/Σg·V·g, or f/g of the inferred sensor.
 * The clean reference counts as known at its flows; the pull of temperature on its film properties is neglected.
 *
 * @param model the unit
 * @param rated the row and what was found about it
 * @returns nothing; the row's four uncertainties are written [W, W/(m²·K), m²·K/W]
 * @range  small errors: first order
 * @source JCGM 100:2008 (GUM) eq. 10; constraint as in Romagnoli & Sánchez, Data Processing and Reconciliation, 2000, ch. 5
 * @check  tests/core/fouling/uncertainty.test.ts (Monte Carlo)
 */
export function propagate(model: UnitModel, rated: Rated): void {
  const { columns, i, sensitivities } = rated;
  const { duty, logU, fouling } = sensitivities;
  dutySensitivity(duty, rated.buffers.gradient);
  logConductanceSensitivity(model, rated);
  foulingSensitivity(model, rated);
  columns.dutyUncertainty[i] = Math.sqrt(varianceOf(model, rated, duty, false));
  columns.overallUUncertainty[i] = columns.overallU[i]! * Math.sqrt(varianceOf(model, rated, logU, false));
  columns.foulingResistanceUncertainty[i] = Math.sqrt(varianceOf(model, rated, fouling, false));
  columns.foulingResistanceSystematic[i] = Math.sqrt(varianceOf(model, rated, fouling, true));
}

/** Duty written as the hot side's: the balance's own gradient, hot part. On the closed balance any writing does. */
function dutySensitivity(out: Float64Array, gradient: Float64Array): void {
  for (let k = 0; k < SIX; k++) out[k] = 0;
  out[PLACE.hotIn] = gradient[PLACE.hotIn]!;
  out[PLACE.hotOut] = gradient[PLACE.hotOut]!;
  out[PLACE.hotFlow] = gradient[PLACE.hotFlow]!;
}

/** ln UA = ln Q − ln ΔT_larger + ln NTU(ε, Cr), with ε = ΔT_larger/D, Cr = ΔT_smaller/ΔT_larger and D = Thi − Tci. */
function logConductanceSensitivity(
  model: UnitModel,
  { columns, i, buffers, rating, sensitivities }: Rated,
): void {
  const { duty, logU } = sensitivities;
  const { hotIn, hotOut, coldIn, coldOut } = PLACE;
  const state = buffers.reconciled;
  for (let k = 0; k < SIX; k++) logU[k] = duty[k]! / columns.duty[i]!;
  const ntu = columns.ntu[i]!;
  const reached = columns.effectiveness[i]!;
  const { capacityRatio: ratio, smallerSide } = rating;
  const greatest = state[hotIn]! - state[coldIn]!;
  const larger = reached * greatest;
  const perNtu = slopeInNtu(model, rating, ntu);
  const perRatio = model.isCondensing ? 0 : slopeInRatio(model, rating, ntu);
  // d ln NTU = (dε − ε_Cr·dCr)/(NTU·ε_NTU)
  const byEffectiveness = 1 / (ntu * perNtu);
  const byRatio = -perRatio * byEffectiveness;
  const toLarger = -1 / larger + byEffectiveness / greatest - (byRatio * ratio) / larger;
  const toSmaller = byRatio / larger;
  const toGreatest = (-byEffectiveness * reached) / greatest;
  const toHot = smallerSide === 'hot' ? toLarger : toSmaller;
  const toCold = smallerSide === 'hot' ? toSmaller : toLarger;
  logU[hotIn]! += toGreatest + toHot;
  logU[hotOut]! -= toHot;
  logU[coldIn]! -= toGreatest + toCold;
  logU[coldOut]! += toCold;
}

function slopeInNtu({ exchanger }: UnitModel, { capacityRatio, smallerSide }: Rating, ntu: number): number {
  const step = STEP * ntu;
  const above = effectiveness(exchanger.arrangement, ntu + step, capacityRatio, smallerSide);
  return (above - effectiveness(exchanger.arrangement, ntu - step, capacityRatio, smallerSide)) / (2 * step);
}

/** One-sided towards smaller Cr: beyond 1 the other stream would be the smaller. */
function slopeInRatio({ exchanger }: UnitModel, { capacityRatio, smallerSide }: Rating, ntu: number): number {
  const step = STEP * capacityRatio;
  const here = effectiveness(exchanger.arrangement, ntu, capacityRatio, smallerSide);
  return (here - effectiveness(exchanger.arrangement, ntu, capacityRatio - step, smallerSide)) / step;
}

/** dRf = −d ln U/U − d(1/Uc), with d(1/Uc) = −n·R·dṁ/ṁ of each film. */
function foulingSensitivity(model: UnitModel, { columns, i, buffers, rating, sensitivities }: Rated): void {
  const { logU, fouling } = sensitivities;
  const { hotFlow, coldFlow } = PLACE;
  const { hot, cold, scale } = model.clean;
  const resistance = 1 / columns.overallU[i]!;
  for (let k = 0; k < SIX; k++) fouling[k] = -logU[k]! * resistance;
  fouling[hotFlow]! += (scale * hot.exponent * rating.hotFilm) / buffers.reconciled[hotFlow]!;
  fouling[coldFlow]! += (scale * cold.exponent * rating.coldFilm) / buffers.reconciled[coldFlow]!;
}

/** Σ s²·V over the sensors, each weighted by its systematic share where asked. */
function varianceOf(
  { sensors }: UnitModel,
  { buffers, inferred }: Rated,
  sensitivity: Float64Array,
  isSystematic: boolean,
): number {
  const { gradient, uncertainty } = buffers;
  const multiplier =
    inferred === NONE_INFERRED
      ? constraintMultiplier(sensitivity, gradient, uncertainty)
      : sensitivity[inferred]! / gradient[inferred]!;
  let sum = 0;
  for (let k = 0; k < SIX; k++) {
    if (k === inferred) continue;
    const part = (sensitivity[k]! - multiplier * gradient[k]!) * uncertainty[k]!;
    sum += isSystematic ? part * part * sensors[k]!.systematicShare : part * part;
  }
  return sum;
}

function constraintMultiplier(
  sensitivity: Float64Array,
  gradient: Float64Array,
  uncertainty: Float64Array,
): number {
  let top = 0;
  let bottom = 0;
  for (let k = 0; k < SIX; k++) {
    const weighted = gradient[k]! * uncertainty[k]! * uncertainty[k]!;
    top += sensitivity[k]! * weighted;
    bottom += gradient[k]! * weighted;
  }
  return bottom > 0 ? top / bottom : 0;
}
