import {
  type BalanceBuffers,
  type BalanceStreams,
  IMBALANCE_VARIANCE,
  linearise,
  reconcileFrom,
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
  return closeFrom(model, buffers, {
    inferred,
    imbalance: linearise(balanceStreams(model, buffers), buffers.measured, buffers.gradient),
  });
}

/**
 * `closeBalance` of a reading whose imbalance has just been worked out.
 *
 * @param model   the unit
 * @param buffers as `closeBalance`, `gradient` at the measured state
 * @param known   place of the inferred sensor, or `NONE_INFERRED` [-]; imbalance as measured, from `linearise` [W]
 * @returns as `closeBalance`
 * @range  any
 * @source see `closeBalance`
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function closeFrom(
  model: UnitModel,
  buffers: BalanceBuffers,
  known: { inferred: number; imbalance: number },
): boolean {
  if (known.inferred !== NONE_INFERRED) return keepMeasured(buffers);
  if (reconcileStateFrom(model, buffers, known.imbalance)) return true;
  if (buffers.statistics[IMBALANCE_VARIANCE] !== 0) return false;
  // Sensors taken as exact leave nothing to adjust: the state stands as measured, its balance judged beside it.
  linearise(balanceStreams(model, buffers), buffers.measured, buffers.gradient);
  return keepMeasured(buffers);
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
  const imbalance = linearise(balanceStreams(model, buffers), buffers.measured, buffers.gradient);
  return reconcileStateFrom(model, buffers, imbalance);
}

function reconcileStateFrom(model: UnitModel, buffers: BalanceBuffers, imbalance: number): boolean {
  const streams = balanceStreams(model, buffers);
  const { measured, reconciled } = buffers;
  for (let k = 0; k < measured.length; k++) reconciled[k] = measured[k]!;
  if (!reconcileFrom(streams, buffers, imbalance)) return false;
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

/** The state as measured, its gradient known. */
function keepMeasured({ measured, reconciled, gradient }: BalanceBuffers): boolean {
  let isClosed = true;
  for (let k = 0; k < measured.length; k++) {
    reconciled[k] = measured[k]!;
    if (!Number.isFinite(gradient[k]!)) isClosed = false;
  }
  return isClosed;
}

/**
 * Variance of Qh − Qc as measured, from the six sensors.
 *
 * @param buffers `uncertainty` [K, kg/s], and `gradient` at the measured state [W/K, J/kg]
 * @returns [W²]
 * @range  any
 * @source JCGM 100:2008 (GUM) eq. 10
 * @check  tests/core/fouling/uncertainty.test.ts
 */
export function imbalanceVariance({
  uncertainty,
  gradient,
}: Pick<BalanceBuffers, 'uncertainty' | 'gradient'>): number {
  let sum = 0;
  for (let k = 0; k < gradient.length; k++)
    sum += gradient[k]! * gradient[k]! * uncertainty[k]! * uncertainty[k]!;
  return sum;
}
