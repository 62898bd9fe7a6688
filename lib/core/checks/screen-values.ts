import type { Fluid } from '../fluids/fluid';
import { saturationTemperature } from '../fouling/enthalpy-change';
import { measuredSensors } from '../fouling/measured-sensors';
import { PLACE, type UnitModel } from '../fouling/unit-model';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME, type ReadingColumns } from '../series/reading-columns';
import { REASON_BIT } from './reasons';

/** Mass flows as measured, length n [kg/s]; NaN where not measured. */
export type MassFlows = {
  hot: Float64Array;
  cold: Float64Array;
  /** Bits of the sensors measured, in the order of `BALANCE_SENSORS`; a flow's only where a mass flow can be had of it [-]. */
  measured: Uint8Array;
};

/**
 * Screens each reading's own values, without looking at its neighbours: missing, not-a-number, out-of-range,
 * outside-fluid-range, unit-off, flow-below-turndown; and turns volume flows into mass flows.
 *
 * @param model    unit with its settings
 * @param readings columns, length n
 * @param reasons  masks [-], length n: bits are added
 * @returns mass flows [kg/s]: volume flows times the density at the meter's own temperature (the stream's other end where
 *   that is not measured); and which sensors are measured
 * @range  any
 * @source METHODS §1, §3 (table of what suffices) and §7
 * @check  tests/core/checks/screen-values.test.ts
 */
export function screenValues(model: UnitModel, readings: ReadingColumns, reasons: Uint32Array): MassFlows {
  const n = readings.time.length;
  const flows = { hot: new Float64Array(n), cold: new Float64Array(n), measured: new Uint8Array(n) };
  for (let i = 0; i < n; i++) {
    const basis = readings.flowBasis[i]!;
    flows.hot[i] = (basis & HOT_FLOW_IS_VOLUME) === 0 ? readings.hotFlow[i]! : meteredHot(model, readings, i);
    flows.cold[i] =
      (basis & COLD_FLOW_IS_VOLUME) === 0 ? readings.coldFlow[i]! : meteredCold(model, readings, i);
    flows.measured[i] = measuredSensors(model, readings, i);
    reasons[i]! |= judgeValues({ model, readings, flows }, i);
  }
  return flows;
}

function meteredHot(model: UnitModel, readings: ReadingColumns, i: number): number {
  if (!model.hasMeterDensity.hot) return Number.NaN;
  const inlet = saturationTemperature(model.hot, readings.hotIn[i]!);
  const at = meterTemperature(model.exchanger.hotMeterAt, inlet, readings.hotOut[i]!);
  return massFlow(model.hot, readings.hotFlow[i]!, at);
}

function meteredCold(model: UnitModel, readings: ReadingColumns, i: number): number {
  if (!model.hasMeterDensity.cold) return Number.NaN;
  const outlet = saturationTemperature(model.cold, readings.coldOut[i]!);
  const at = meterTemperature(model.exchanger.coldMeterAt, readings.coldIn[i]!, outlet);
  return massFlow(model.cold, readings.coldFlow[i]!, at);
}

function meterTemperature(at: 'inlet' | 'outlet', inlet: number, outlet: number): number {
  const own = at === 'inlet' ? inlet : outlet;
  if (!Number.isNaN(own)) return own;
  return at === 'inlet' ? outlet : inlet;
}

/**
 * Mass flow from volume flow with the density at the meter.
 *
 * @param fluid       what flows
 * @param volumeFlow  [m³/s]
 * @param temperature at the meter [°C]
 * @returns [kg/s]; NaN ("not measured") where the fluid states no density or the temperature lies outside its range
 * @range  the fluid's own
 * @source ṁ = ρ·V̇
 * @check  tests/core/checks/screen-values.test.ts
 */
export function massFlow(fluid: Fluid, volumeFlow: number, temperature: number): number {
  return fluid.density === null ? Number.NaN : volumeFlow * fluid.density(temperature);
}

type Judged = {
  model: UnitModel;
  readings: ReadingColumns;
  flows: MassFlows;
};

/** The first reason that applies, in the order of REASONS: what stands above leaves nothing to judge below. */
function judgeValues(judged: Judged, i: number): number {
  const { model, readings, flows } = judged;
  const measured = flows.measured[i]!;
  if (model.plan.suffices[measured] === 0) return REASON_BIT.missing;
  if (hasInfinity(readings, i)) return REASON_BIT['not-a-number'];
  const { design } = model.exchanger;
  const hotShare = flows.hot[i]! / design.hotFlow;
  const coldShare = flows.cold[i]! / design.coldFlow;
  const { offFlowShare, turndownFlowShare, maximumFlowShare } = model.settings;
  // Comparisons with NaN are false: a flow that is not measured says nothing.
  const isFlowBeyond =
    isBeyond(hotShare, -offFlowShare, maximumFlowShare) ||
    isBeyond(coldShare, -offFlowShare, maximumFlowShare);
  if (isFlowBeyond || isOutOfRange(model, readings, i)) return REASON_BIT['out-of-range'];
  const hasNoDensity =
    (Number.isNaN(hotShare) && hasBit(measured, PLACE.hotFlow)) ||
    (Number.isNaN(coldShare) && hasBit(measured, PLACE.coldFlow));
  if (hasNoDensity || isOutsideFluid(model, readings, i)) return REASON_BIT['outside-fluid-range'];
  const isSomeFlowOff = hotShare < offFlowShare || coldShare < offFlowShare;
  const isNoFlowOn = !(hotShare >= offFlowShare) && !(coldShare >= offFlowShare);
  if (isSomeFlowOff && isNoFlowOn) return REASON_BIT['unit-off'];
  if (hotShare < turndownFlowShare || coldShare < turndownFlowShare) return REASON_BIT['flow-below-turndown'];
  return 0;
}

function hasInfinity(readings: ReadingColumns, i: number): boolean {
  const { hotIn, hotOut, coldIn, coldOut, hotFlow, coldFlow } = readings;
  // Infinity − Infinity and Infinity·0 are NaN, and so is a missing value: look at each.
  return (
    isInfinite(hotIn[i]!) ||
    isInfinite(hotOut[i]!) ||
    isInfinite(coldIn[i]!) ||
    isInfinite(coldOut[i]!) ||
    isInfinite(hotFlow[i]!) ||
    isInfinite(coldFlow[i]!)
  );
}

function isInfinite(value: number): boolean {
  return value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY;
}

function isOutOfRange(
  { settings }: UnitModel,
  { hotIn, hotOut, coldIn, coldOut }: ReadingColumns,
  i: number,
): boolean {
  const { minimumTemperature: low, maximumTemperature: high } = settings;
  return (
    isBeyond(hotIn[i]!, low, high) ||
    isBeyond(hotOut[i]!, low, high) ||
    isBeyond(coldIn[i]!, low, high) ||
    isBeyond(coldOut[i]!, low, high)
  );
}

function isOutsideFluid({ hot, cold, phaseChange }: UnitModel, readings: ReadingColumns, i: number): boolean {
  let hotIn = readings.hotIn[i]!;
  let hotOut = readings.hotOut[i]!;
  let coldIn = readings.coldIn[i]!;
  let coldOut = readings.coldOut[i]!;
  // Liquid that reads above saturation counts as saturated, so its reading needs no upper bound of its own.
  if (phaseChange === 'hot') {
    hotIn = saturationTemperature(hot, hotIn);
    hotOut = Math.min(hotOut, hotIn);
  } else if (phaseChange === 'cold') {
    coldOut = saturationTemperature(cold, coldOut);
    coldIn = Math.min(coldIn, coldOut);
  }
  return (
    isBeyond(hotIn, hot.minimum, hot.maximum) ||
    isBeyond(hotOut, hot.minimum, hot.maximum) ||
    isBeyond(coldIn, cold.minimum, cold.maximum) ||
    isBeyond(coldOut, cold.minimum, cold.maximum)
  );
}

function isBeyond(value: number, low: number, high: number): boolean {
  return value < low || value > high;
}

function hasBit(bits: number, place: number): boolean {
  return (bits & (1 << place)) !== 0;
}
