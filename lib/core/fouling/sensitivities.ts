import { filmResistance } from '../clean/clean-conductance';
import type { FilmReference } from '../clean/clean-reference';
import { effectiveness } from '../exchange/effectiveness';
import type { BalanceBuffers } from '../exchange/reconcile';
import type { Fluid } from '../fluids/fluid';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME, type ReadingColumns } from '../series/reading-columns';
import type { Rating } from './conductance-figures';
import type { EvaluationColumns } from './evaluation-columns';
import { PLACE, type UnitModel } from './unit-model';

/** Step for the slopes of the effectiveness, as a share of NTU or of Cr [-]. */
const STEP = 1e-5;
/** Step for the slopes of film resistance and density over temperature [K]. */
const TEMPERATURE_STEP = 0.01;
const SIX = 6;

/** Room for the sensitivities of one reading to its six values, made once and used for each. */
export type Sensitivities = {
  duty: Float64Array;
  logU: Float64Array;
  fouling: Float64Array;
  /** Change of a stream's mass flow with the temperature its volume meter sits at, at that temperature's place; else 0 [kg/(s·K)]. */
  densityPull: Float64Array;
};

/**
 * Room for `writeSensitivities`.
 *
 * @returns arrays of six zeros [-]
 * @range  none
 * @source none: room only
 * @check  tests/core/fouling/uncertainty.test.ts
 */
export function makeSensitivities(): Sensitivities {
  const six = () => new Float64Array(SIX);
  return { duty: six(), logU: six(), fouling: six(), densityPull: six() };
}

/** One rated reading: its row, buffers with state and gradient of the balance, and the sensor inferred. */
export type Rated = {
  readings: ReadingColumns;
  columns: EvaluationColumns;
  i: number;
  buffers: BalanceBuffers;
  rating: Rating;
  inferred: number;
  sensitivities: Sensitivities;
};

/**
 * Derivatives of duty, ln U and Rf to the six values of the closed state, each as if the others stood still, and the pull
 * of temperature on a volume meter's mass flow.
 *
 * @param model the unit
 * @param rated the row and what was found about it; its `sensitivities` are written
 * @returns nothing [W, -, m²·K/W per K or per kg/s]
 * @range  U > 0
 * @source derivatives of Q = ṁh·Δhh, of ln UA = ln Q − ln ΔT + ln NTU(ε, Cr) and of Rf = 1/U − 1/Uc (METHODS §4 to §6)
 * @check  tests/core/fouling/uncertainty.test.ts (Monte Carlo)
 */
export function writeSensitivities(model: UnitModel, rated: Rated): void {
  writeDuty(rated.sensitivities.duty, rated.buffers.gradient);
  writeLogConductance(model, rated);
  writeFouling(model, rated);
  writeDensityPull(model, rated);
}

/** Duty written as the hot side's: the balance's own gradient, hot part. On the closed balance any writing does. */
function writeDuty(out: Float64Array, gradient: Float64Array): void {
  // Element by element: the built-in `fill` costs more than all six.
  out[PLACE.hotIn] = gradient[PLACE.hotIn]!;
  out[PLACE.hotOut] = gradient[PLACE.hotOut]!;
  out[PLACE.coldIn] = 0;
  out[PLACE.coldOut] = 0;
  out[PLACE.hotFlow] = gradient[PLACE.hotFlow]!;
  out[PLACE.coldFlow] = 0;
}

/** ln UA = ln Q − ln ΔT_larger + ln NTU(ε, Cr), with ε = ΔT_larger/D, Cr = ΔT_smaller/ΔT_larger and D = Thi − Tci (Thi − Tsat where the cold stream evaporates). */
function writeLogConductance(model: UnitModel, { columns, i, buffers, rating, sensitivities }: Rated): void {
  const { duty, logU } = sensitivities;
  const state = buffers.reconciled;
  for (let k = 0; k < SIX; k++) logU[k] = duty[k]! / columns.duty[i]!;
  const ntu = columns.ntu[i]!;
  const reached = columns.effectiveness[i]!;
  const ratio = rating.capacityRatio;
  const greatest = state[PLACE.hotIn]! - state[model.coldStart]!;
  const larger = reached * greatest;
  // d ln NTU = (dε − ε_Cr·dCr)/(NTU·ε_NTU)
  const byEffectiveness = 1 / (ntu * slopeInNtu(model, rating, ntu));
  const byRatio = -slopeInRatio(model, rating, ntu) * byEffectiveness;
  addDifferences(
    logU,
    { model, rating },
    {
      greatest: (-byEffectiveness * reached) / greatest,
      larger: -1 / larger + byEffectiveness / greatest - (byRatio * ratio) / larger,
      smaller: byRatio / larger,
    },
  );
}

/** Adds a change with D, with the larger and with the smaller temperature change of a stream. */
function addDifferences(
  out: Float64Array,
  { model, rating }: { model: UnitModel; rating: Rating },
  by: { greatest: number; larger: number; smaller: number },
): void {
  const { hotIn, hotOut, coldIn, coldOut } = PLACE;
  const isHotSmaller = rating.smallerSide === 'hot';
  const toHot = isHotSmaller ? by.larger : by.smaller;
  const toCold = isHotSmaller ? by.smaller : by.larger;
  out[hotIn]! += by.greatest + toHot;
  out[hotOut]! -= toHot;
  out[model.coldStart]! -= by.greatest;
  out[coldIn]! -= toCold;
  out[coldOut]! += toCold;
}

function slopeInNtu({ exchanger }: UnitModel, { capacityRatio, smallerSide }: Rating, ntu: number): number {
  const step = STEP * ntu;
  const above = effectiveness(exchanger.arrangement, ntu + step, capacityRatio, smallerSide);
  return (above - effectiveness(exchanger.arrangement, ntu - step, capacityRatio, smallerSide)) / (2 * step);
}

/** One-sided towards smaller Cr: beyond 1 the other stream would be the smaller. 0 where a stream changes phase and Cr stays 0. */
function slopeInRatio({ exchanger }: UnitModel, { capacityRatio, smallerSide }: Rating, ntu: number): number {
  if (capacityRatio === 0) return 0;
  const step = STEP * capacityRatio;
  const here = effectiveness(exchanger.arrangement, ntu, capacityRatio, smallerSide);
  return (here - effectiveness(exchanger.arrangement, ntu, capacityRatio - step, smallerSide)) / step;
}

/** dRf = −d ln U/U − d(1/Uc): each film moves with its flow, −n·R·dṁ/ṁ, and with the mean of its two temperatures. */
function writeFouling(model: UnitModel, { columns, i, buffers, rating, sensitivities }: Rated): void {
  const { logU, fouling } = sensitivities;
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  const { hot, cold, factors } = model.clean;
  const state = buffers.reconciled;
  const resistance = 1 / columns.overallU[i]!;
  for (let k = 0; k < SIX; k++) fouling[k] = -logU[k]! * resistance;
  fouling[hotFlow]! += (factors.hot * hot.exponent * rating.hotFilm) / state[hotFlow]!;
  fouling[coldFlow]! += (factors.cold * cold.exponent * rating.coldFilm) / state[coldFlow]!;
  const hotMean = (state[hotIn]! + state[hotOut]!) / 2;
  const coldMean = (state[coldIn]! + state[coldOut]!) / 2;
  const byHot = (factors.hot * slopeOfFilm(hot, rating.hotFilm, state[hotFlow]!, hotMean)) / 2;
  const byCold = (factors.cold * slopeOfFilm(cold, rating.coldFilm, state[coldFlow]!, coldMean)) / 2;
  fouling[hotIn]! -= byHot;
  fouling[hotOut]! -= byHot;
  fouling[coldIn]! -= byCold;
  fouling[coldOut]! -= byCold;
}

function slopeOfFilm(film: FilmReference, here: number, flow: number, at: number): number {
  if (film.properties === null) return 0;
  const step = stepInto(film.properties.fluid, at);
  return (filmResistance(film, flow, at + step) - here) / step;
}

/** A step towards the middle of the fluid's range: from an end of it, the other way would leave the range. */
function stepInto({ minimum, maximum }: { minimum: number; maximum: number }, temperature: number): number {
  return temperature < (minimum + maximum) / 2 ? TEMPERATURE_STEP : -TEMPERATURE_STEP;
}

/** ṁ = ρ(T)·V̇: an error of the meter's own temperature is one of the mass flow too. */
function writeDensityPull(model: UnitModel, rated: Rated): void {
  const { densityPull } = rated.sensitivities;
  const { hotMeterAt, coldMeterAt } = model.exchanger;
  for (let k = 0; k < SIX; k++) densityPull[k] = 0;
  const hotPlace = hotMeterAt === 'inlet' ? PLACE.hotIn : PLACE.hotOut;
  const coldPlace = coldMeterAt === 'inlet' ? PLACE.coldIn : PLACE.coldOut;
  const { readings, i, buffers } = rated;
  const basis = readings.flowBasis[i]!;
  if ((basis & HOT_FLOW_IS_VOLUME) !== 0 && model.hasMeterDensity.hot)
    densityPull[hotPlace] = pullOf(model.hot, readings.hotFlow[i]!, buffers.measured[hotPlace]!);
  if ((basis & COLD_FLOW_IS_VOLUME) !== 0 && model.hasMeterDensity.cold)
    densityPull[coldPlace] = pullOf(model.cold, readings.coldFlow[i]!, buffers.measured[coldPlace]!);
}

function pullOf(fluid: Fluid, volumeFlow: number, at: number): number {
  if (Number.isNaN(volumeFlow)) return 0;
  const step = stepInto(fluid, at);
  const slope = (fluid.density!(at + step) - fluid.density!(at)) / step;
  return Number.isFinite(slope) ? volumeFlow * slope : 0;
}

/**
 * Derivatives of the lost duty Qclean − Q to the six values of the closed state, Qclean = ε(NTUc, Cr)·Q·D/ΔT with
 * NTUc = Uc·A·ΔT/Q and ΔT the larger temperature change of a stream.
 *
 * @param model the unit
 * @param rated the row, its other sensitivities written
 * @returns six derivatives [W/K, W/(kg/s)]
 * @range  U > 0
 * @source derivative of METHODS §10, lost duty
 * @check  tests/core/fouling/uncertainty-budget.test.ts (Monte Carlo)
 */
export function lostDutySensitivity(model: UnitModel, rated: Rated): Float64Array {
  const { columns, i, buffers, rating, sensitivities } = rated;
  const state = buffers.reconciled;
  const duty = columns.duty[i]!;
  const cleanU = columns.cleanU[i]!;
  const cleanDuty = duty + columns.lostDuty[i]!;
  const greatest = state[PLACE.hotIn]! - state[model.coldStart]!;
  const larger = columns.effectiveness[i]! * greatest;
  const ntu = (cleanU * model.exchanger.area) / rating.smallestRate;
  const reached = effectiveness(model.exchanger.arrangement, ntu, rating.capacityRatio, rating.smallerSide);
  const toNtu = (slopeInNtu(model, rating, ntu) * ntu) / reached;
  const toRatio = slopeInRatio(model, rating, ntu) / reached;
  const logClean = new Float64Array(SIX);
  for (let k = 0; k < SIX; k++) {
    const logCleanU = cleanU * (sensitivities.fouling[k]! + sensitivities.logU[k]! / columns.overallU[i]!);
    logClean[k] = (1 - toNtu) * (sensitivities.duty[k]! / duty) + toNtu * logCleanU;
  }
  addDifferences(
    logClean,
    { model, rating },
    {
      greatest: 1 / greatest,
      larger: (toNtu - 1 - toRatio * rating.capacityRatio) / larger,
      smaller: toRatio / larger,
    },
  );
  return logClean.map((slope, k) => cleanDuty * slope - sensitivities.duty[k]!);
}
