import type { Fluid } from '../fluids/fluid';
import { saturationTemperature } from '../fouling/enthalpy-change';
import type { UnitModel } from '../fouling/unit-model';
import { COLD_FLOW_IS_VOLUME, HOT_FLOW_IS_VOLUME, type ReadingColumns } from '../series/reading-columns';
import { REASON_BIT } from './reasons';

/** Mass flows as measured, length n [kg/s]; NaN where not measured. */
export type MassFlows = { hot: Float64Array; cold: Float64Array };

/**
 * Screens each reading's own values, without looking at its neighbours: missing, not-a-number, out-of-range,
 * outside-fluid-range, unit-off, flow-below-turndown; and turns volume flows into mass flows.
 *
 * @param model    unit with its settings
 * @param readings columns, length n
 * @param reasons  masks [-], length n: bits are added
 * @returns mass flows [kg/s]: volume flows times the density at the meter's own temperature (the stream's other end where
 *   that is not measured)
 * @range  any
 * @source METHODS §1, §3 (table of what suffices) and §7
 * @check  tests/core/checks/screen-values.test.ts
 */
export function screenValues(model: UnitModel, readings: ReadingColumns, reasons: Uint32Array): MassFlows {
  const n = readings.time.length;
  const flows = { hot: new Float64Array(n), cold: new Float64Array(n) };
  const { hotMeterAt, coldMeterAt } = model.exchanger;
  for (let i = 0; i < n; i++) {
    const isHotVolume = (readings.flowBasis[i]! & HOT_FLOW_IS_VOLUME) !== 0;
    const isColdVolume = (readings.flowBasis[i]! & COLD_FLOW_IS_VOLUME) !== 0;
    const hotMeter = meterTemperature(hotMeterAt, readings.hotIn[i]!, readings.hotOut[i]!);
    const coldMeter = meterTemperature(coldMeterAt, readings.coldIn[i]!, readings.coldOut[i]!);
    flows.hot[i] = isHotVolume ? massFlow(model.hot, readings.hotFlow[i]!, hotMeter) : readings.hotFlow[i]!;
    flows.cold[i] = isColdVolume
      ? massFlow(model.cold, readings.coldFlow[i]!, coldMeter)
      : readings.coldFlow[i]!;
    const hasHotFlow = !Number.isNaN(readings.hotFlow[i]!) && !(isHotVolume && model.hot.density === null);
    const hasColdFlow =
      !Number.isNaN(readings.coldFlow[i]!) && !(isColdVolume && model.cold.density === null);
    reasons[i]! |= judgeValues({ model, readings, flows, hasHotFlow, hasColdFlow }, i);
  }
  return flows;
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
  /** Whether a mass flow is measured, or a volume flow that a density can convert. */
  hasHotFlow: boolean;
  hasColdFlow: boolean;
};

/** The first reason that applies, in the order of REASONS: what stands above leaves nothing to judge below. */
function judgeValues(judged: Judged, i: number): number {
  const { model, readings, flows } = judged;
  if (isMissing(judged, i)) return REASON_BIT.missing;
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
    (judged.hasHotFlow && Number.isNaN(hotShare)) || (judged.hasColdFlow && Number.isNaN(coldShare));
  if (hasNoDensity || isOutsideFluid(model, readings, i)) return REASON_BIT['outside-fluid-range'];
  if (!(hotShare >= offFlowShare) && !(coldShare >= offFlowShare)) return REASON_BIT['unit-off'];
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

function isOutsideFluid(
  { hot, cold, isCondensing }: UnitModel,
  readings: ReadingColumns,
  i: number,
): boolean {
  const hotIn = isCondensing ? saturationTemperature(hot, readings.hotIn[i]!) : readings.hotIn[i]!;
  // Condensate above saturation counts as saturated, so its reading needs no upper bound of its own.
  const hotOut = isCondensing ? Math.min(readings.hotOut[i]!, hotIn) : readings.hotOut[i]!;
  return (
    isBeyond(hotIn, hot.minimum, hot.maximum) ||
    isBeyond(hotOut, hot.minimum, hot.maximum) ||
    isBeyond(readings.coldIn[i]!, cold.minimum, cold.maximum) ||
    isBeyond(readings.coldOut[i]!, cold.minimum, cold.maximum)
  );
}

function isBeyond(value: number, low: number, high: number): boolean {
  return value < low || value > high;
}

/** Fewer measured than METHODS §3 needs. */
function isMissing({ model, readings, hasHotFlow, hasColdFlow }: Judged, i: number): boolean {
  const flowCount = Number(hasHotFlow) + Number(hasColdFlow);
  const coldCount = given(readings.coldIn[i]!) + given(readings.coldOut[i]!);
  if (model.isCondensing) {
    if (Number.isNaN(saturationTemperature(model.hot, readings.hotIn[i]!))) return true;
    return coldCount === 2 ? flowCount < 1 : coldCount < 1 || flowCount < 2;
  }
  const count = coldCount + given(readings.hotIn[i]!) + given(readings.hotOut[i]!);
  return count === 4 ? flowCount < 1 : count < 3 || flowCount < 2;
}

function given(value: number): number {
  return Number.isNaN(value) ? 0 : 1;
}
