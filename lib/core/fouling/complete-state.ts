import type { MassFlows } from '../checks/screen-values';
import { massFlow } from '../checks/screen-values';
import type { BalanceBuffers } from '../exchange/reconcile';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME, type ReadingColumns } from '../series/reading-columns';
import { enthalpyDrop, enthalpyRise, saturationTemperature, temperatureAfter } from './enthalpy-change';
import { PLACE, standardUncertainty, type UnitModel } from './unit-model';

/** No sensor was inferred: all six are measured. */
export const NONE_INFERRED = -1;

/** What `completeState` works on: the screened columns of one unit. */
export type Screened = { model: UnitModel; readings: ReadingColumns; flows: MassFlows };

/** Passes over the density of a flow whose meter sits at the very temperature that is inferred with it: each gains two digits. */
const DENSITY_PASSES = 8;

/**
 * Fills `measured` and `uncertainty` of the buffers with one reading's six values: a flow that the screening found to be
 * wanted stands in at its nominal value, and the one value then still lacking is inferred from the heat balance
 * (METHODS §3 table).
 *
 * With one nominal flow and four temperatures the other flow is inferred from it; with two nominal flows nothing is
 * inferred and the balance is closed by least adjustment, as between measured ones.
 *
 * @param screened unit, readings and mass flows
 * @param i        which reading; it must not be 'missing'
 * @param buffers  `measured` [°C, kg/s] and `uncertainty` [K, kg/s] are written
 * @returns place of the inferred sensor in `BALANCE_SENSORS`, or `NONE_INFERRED` [-]
 * @range  an inferred value is NaN where it lies outside the fluid's range
 * @source METHODS §3; enthalpy balance ṁh·Δhh = ṁc·Δhc
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function completeState(
  screened: Screened,
  i: number,
  { measured, uncertainty }: BalanceBuffers,
): number {
  const { model, readings, flows } = screened;
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  measured[hotIn] = readings.hotIn[i]!;
  measured[hotOut] = readings.hotOut[i]!;
  measured[coldIn] = readings.coldIn[i]!;
  measured[coldOut] = readings.coldOut[i]!;
  measured[hotFlow] = flows.hot[i]!;
  measured[coldFlow] = flows.cold[i]!;
  const saturated = model.phaseChange === null ? NONE_SATURATED : fillSaturated(model, measured);
  const nominal = model.plan.nominal[flows.measured[i]!]!;
  if (nominal !== 0) fillNominal(model, measured, nominal);
  const place = firstMissing(measured);
  if (place !== NONE_INFERRED) infer(screened, i, { state: measured, place });
  for (let k = 0; k < measured.length; k++) {
    uncertainty[k] = standardUncertainty(model.sensors[k]!, measured[k]!);
  }
  // Liquid taken as saturated follows the saturation temperature: it has no error of its own.
  if (saturated !== NONE_SATURATED) uncertainty[saturated] = 0;
  return place;
}

/** No liquid end was taken as saturated. */
const NONE_SATURATED = -1;

/**
 * Puts the side that changes phase at its saturation temperature, and its liquid there too where nothing colder is read.
 * The place of liquid taken as saturated, or `NONE_SATURATED`.
 */
function fillSaturated({ phaseChange, hot, cold }: UnitModel, state: Float64Array): number {
  const isHot = phaseChange === 'hot';
  const vapour = isHot ? PLACE.hotIn : PLACE.coldOut;
  const liquid = isHot ? PLACE.hotOut : PLACE.coldIn;
  state[vapour] = saturationTemperature(isHot ? hot : cold, state[vapour]!);
  if (state[liquid]! < state[vapour]!) return NONE_SATURATED;
  state[liquid] = state[vapour]!;
  return liquid;
}

function fillNominal({ exchanger }: UnitModel, state: Float64Array, bits: number): void {
  const { hot, cold } = exchanger.nominalFlows;
  if ((bits & (1 << PLACE.hotFlow)) !== 0) state[PLACE.hotFlow] = hot!;
  if ((bits & (1 << PLACE.coldFlow)) !== 0) state[PLACE.coldFlow] = cold!;
}

function firstMissing(state: Float64Array): number {
  for (let k = 0; k < state.length; k++) if (Number.isNaN(state[k]!)) return k;
  return NONE_INFERRED;
}

function infer(screened: Screened, i: number, unknown: { state: Float64Array; place: number }): void {
  const { model } = screened;
  const { state, place } = unknown;
  if (place >= PLACE.hotFlow) {
    const drop = enthalpyDrop(model.hot, state[PLACE.hotIn]!, state[PLACE.hotOut]!);
    const rise = enthalpyRise(model.cold, state[PLACE.coldIn]!, state[PLACE.coldOut]!);
    if (place === PLACE.hotFlow) state[place] = (state[PLACE.coldFlow]! * rise) / drop;
    else state[place] = (state[PLACE.hotFlow]! * drop) / rise;
    return;
  }
  for (let pass = 0; pass < DENSITY_PASSES; pass++) {
    state[place] = inferTemperature(model, state, place);
    if (!correctFlow(screened, i, unknown)) return;
  }
}

function inferTemperature(model: UnitModel, state: Float64Array, place: number): number {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = PLACE;
  if (place === coldIn || place === coldOut) {
    const gain =
      (state[hotFlow]! * enthalpyDrop(model.hot, state[hotIn]!, state[hotOut]!)) / state[coldFlow]!;
    if (place === coldOut) return temperatureAfter(model.cold, state[coldIn]!, gain);
    return temperatureAfter(model.cold, state[coldOut]!, -gain);
  }
  const loss =
    (state[coldFlow]! * enthalpyRise(model.cold, state[coldIn]!, state[coldOut]!)) / state[hotFlow]!;
  if (place === hotOut) return temperatureAfter(model.hot, state[hotIn]!, -loss);
  return temperatureAfter(model.hot, state[hotOut]!, loss);
}

/** Takes the density at the inferred temperature where the volume meter sits there; false where nothing changes. */
function correctFlow(
  { model, readings }: Screened,
  i: number,
  { state, place }: { state: Float64Array; place: number },
): boolean {
  const isHot = place === PLACE.hotIn || place === PLACE.hotOut;
  const isInlet = place === PLACE.hotIn || place === PLACE.coldIn;
  const isVolume = (readings.flowBasis[i]! & (isHot ? HOT_FLOW_IS_VOLUME : COLD_FLOW_IS_VOLUME)) !== 0;
  const meterAt = isHot ? model.exchanger.hotMeterAt : model.exchanger.coldMeterAt;
  if (!isVolume || (meterAt === 'inlet') !== isInlet) return false;
  const volumeFlow = isHot ? readings.hotFlow[i]! : readings.coldFlow[i]!;
  state[isHot ? PLACE.hotFlow : PLACE.coldFlow] = massFlow(
    isHot ? model.hot : model.cold,
    volumeFlow,
    state[place]!,
  );
  return true;
}
