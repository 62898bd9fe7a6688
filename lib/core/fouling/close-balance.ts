import {
  type BalanceBuffers,
  type BalanceStreams,
  IMBALANCE_VARIANCE,
  reconcileBalance,
} from '../exchange/reconcile';
import { NONE_INFERRED } from './complete-state';
import { PLACE, type UnitModel } from './unit-model';

/**
 * Closes the balance of one reading: the least adjustment where all six values are measured; an inferred value closes it
 * by itself.
 *
 * @param model    the unit
 * @param buffers  `measured` and `uncertainty` filled in [°C, kg/s]; `reconciled` and `gradient` are written
 * @param inferred place of the inferred sensor, or `NONE_INFERRED` [-]
 * @returns false where there is no closed state (a temperature outside its fluid's range)
 * @range  any
 * @source METHODS §3; see `reconcileBalance`
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function closeBalance(model: UnitModel, buffers: BalanceBuffers, inferred: number): boolean {
  if (inferred !== NONE_INFERRED) return keepMeasured(model, buffers);
  if (reconcileState(model, buffers)) return true;
  // Sensors taken as exact leave nothing to adjust: the state stands as measured, its balance judged beside it.
  return buffers.statistics[IMBALANCE_VARIANCE] === 0 && keepMeasured(model, buffers);
}

/**
 * Least adjustment of one reading's six values. Liquid taken as saturated stays so: it moves with the saturation temperature.
 *
 * @param model   the unit
 * @param buffers as `reconcileBalance`
 * @returns as `reconcileBalance`
 * @range  any
 * @source see `reconcileBalance`
 * @check  tests/core/fouling/saturated-liquid.test.ts
 */
export function reconcileState(model: UnitModel, buffers: BalanceBuffers): boolean {
  const streams = balanceStreams(model, buffers);
  if (!reconcileBalance(streams, buffers)) return false;
  if (streams === model.saturatedStreams) {
    const { liquid, vapour } = phasePlaces(model);
    buffers.reconciled[liquid] = buffers.reconciled[vapour]!;
  }
  return true;
}

/**
 * Enthalpy curves by which one reading's balance is judged.
 *
 * @param model   the unit
 * @param buffers `measured` and `uncertainty` of a completed state [°C, kg/s]
 * @returns the unit's curves; where the liquid of a stream that changes phase was taken as saturated, all of that stream's
 *   enthalpy hangs on its saturation temperature [J/kg]
 * @range  any
 * @source none: selection only
 * @check  tests/core/fouling/saturated-liquid.test.ts
 */
export function balanceStreams(
  model: UnitModel,
  { measured, uncertainty }: Pick<BalanceBuffers, 'measured' | 'uncertainty'>,
): BalanceStreams {
  if (model.saturatedStreams === null) return model.streams;
  const { liquid, vapour } = phasePlaces(model);
  const isSaturated = uncertainty[liquid] === 0 && measured[liquid] === measured[vapour];
  return isSaturated ? model.saturatedStreams : model.streams;
}

function phasePlaces({ phaseChange }: UnitModel): { liquid: number; vapour: number } {
  return phaseChange === 'hot'
    ? { liquid: PLACE.hotOut, vapour: PLACE.hotIn }
    : { liquid: PLACE.coldIn, vapour: PLACE.coldOut };
}

function keepMeasured(model: UnitModel, buffers: BalanceBuffers): boolean {
  buffers.reconciled.set(buffers.measured);
  balanceGradient(balanceStreams(model, buffers), buffers.measured, buffers.gradient);
  return buffers.gradient.every((slope) => Number.isFinite(slope));
}

/**
 * Variance of Qh − Qc as measured, from the six sensors.
 *
 * @param model   the unit
 * @param buffers `measured` and `uncertainty` filled in [°C, kg/s]; `gradient` is written
 * @returns [W²]
 * @range  any
 * @source JCGM 100:2008 (GUM) eq. 10
 * @check  tests/core/fouling/uncertainty.test.ts
 */
export function imbalanceVariance(model: UnitModel, buffers: BalanceBuffers): number {
  const { measured, uncertainty, gradient } = buffers;
  balanceGradient(balanceStreams(model, buffers), measured, gradient);
  let sum = 0;
  for (let k = 0; k < gradient.length; k++)
    sum += gradient[k]! * gradient[k]! * uncertainty[k]! * uncertainty[k]!;
  return sum;
}

/** Derivatives of Qh − Qc to each of the six values. */
function balanceGradient(streams: BalanceStreams, state: Float64Array, gradient: Float64Array): void {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  gradient[hotIn] = state[hotFlow]! * streams.hotIn.slope(state[hotIn]!);
  gradient[hotOut] = -state[hotFlow]! * streams.hotOut.slope(state[hotOut]!);
  gradient[coldIn] = state[coldFlow]! * streams.coldIn.slope(state[coldIn]!);
  gradient[coldOut] = -state[coldFlow]! * streams.coldOut.slope(state[coldOut]!);
  gradient[hotFlow] = streams.hotIn.enthalpy(state[hotIn]!) - streams.hotOut.enthalpy(state[hotOut]!);
  gradient[coldFlow] = streams.coldIn.enthalpy(state[coldIn]!) - streams.coldOut.enthalpy(state[coldOut]!);
}
