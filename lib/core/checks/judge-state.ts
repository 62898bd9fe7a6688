import { PLACE, type UnitModel } from '../fouling/unit-model';
import { REASON_BIT } from './reasons';

/** Condensate or feed that reads above saturation by less than this many combined standard uncertainties is saturated [-]. */
const SATURATION_MULTIPLE = 3;

/**
 * Judges one reading's complete state: reversed temperatures (then nothing else), terminal difference too small.
 *
 * @param model unit with its settings
 * @param state the six values in the order of `BALANCE_SENSORS` [°C, kg/s]
 * @param uncertainty standard uncertainty of each [K, kg/s]
 * @returns bits of `REASON_BIT` [-], 0 where nothing is wrong
 * @range  any
 * @source METHODS §7
 * @check  tests/core/checks/judge-state.test.ts
 */
export function judgeTemperatures(model: UnitModel, state: Float64Array, uncertainty: Float64Array): number {
  const { hotIn, coldOut } = PLACE;
  if (areReversed(model, state, uncertainty)) return REASON_BIT['reversed-temperatures'];
  // A side that changes phase is at saturation from end to end, whatever its condensate or feed reads.
  const { hotEnd, coldStart } = model;
  // Co-current streams meet at their inlets and at their outlets, any others at opposite ends.
  const atHotIn = model.isCoCurrent ? coldStart : coldOut;
  const atHotEnd = model.isCoCurrent ? coldOut : coldStart;
  const first = smallness(state[hotIn]! - state[atHotIn]!, uncertainty[hotIn]!, uncertainty[atHotIn]!);
  const second = smallness(state[hotEnd]! - state[atHotEnd]!, uncertainty[hotEnd]!, uncertainty[atHotEnd]!);
  const isSmall = Math.min(first, second) < model.settings.terminalDifferenceMultiple;
  return isSmall ? REASON_BIT['terminal-difference-too-small'] : 0;
}

/** No heat flows from hot to cold: a stream that is cooled must leave colder, one that is heated warmer. */
function areReversed(model: UnitModel, state: Float64Array, uncertainty: Float64Array): boolean {
  const { hotIn, hotOut, coldIn, coldOut } = PLACE;
  const { phaseChange, coldStart } = model;
  if (state[hotIn]! <= state[coldStart]!) return true;
  const hotDrop = state[hotIn]! - state[hotOut]!;
  const coldRise = state[coldOut]! - state[coldIn]!;
  if (phaseChange === 'hot') {
    const isCondensateHotter = isAboveSaturation(hotDrop, uncertainty[hotIn]!, uncertainty[hotOut]!);
    return isCondensateHotter || coldRise <= 0 || state[hotOut]! <= state[coldIn]!;
  }
  if (phaseChange === 'cold')
    return hotDrop <= 0 || isAboveSaturation(coldRise, uncertainty[coldIn]!, uncertainty[coldOut]!);
  return hotDrop <= 0 || coldRise <= 0;
}

/** Whether liquid reads above saturation by more than its noise; `below` is saturation less the reading. */
function isAboveSaturation(below: number, one: number, other: number): boolean {
  return below < -SATURATION_MULTIPLE * combined(one, other);
}

/**
 * Judges a flow that was inferred from the balance as a measured one would be: no flow known only through a lost
 * temperature change may pass for a flow.
 *
 * @param model    unit with its settings and design flows [kg/s]
 * @param state    the six values [°C, kg/s]
 * @param inferred place of the inferred sensor, negative for none [-]
 * @returns bits of 'out-of-range' or 'flow-below-turndown', or 0 [-]; 0 for the flow of a stream that changes phase
 * @range  any
 * @source METHODS §7
 * @check  tests/core/checks/judge-state.test.ts
 */
export function judgeInferred(model: UnitModel, state: Float64Array, inferred: number): number {
  const isHot = inferred === PLACE.hotFlow;
  if (!isHot && inferred !== PLACE.coldFlow) return 0;
  // Steam follows the duty: a small flow of it is no turndown of its film, which is taken constant.
  if (model.phaseChange === (isHot ? 'hot' : 'cold')) return 0;
  const { design } = model.exchanger;
  const share = state[inferred]! / (isHot ? design.hotFlow : design.coldFlow);
  if (share > model.settings.maximumFlowShare) return REASON_BIT['out-of-range'];
  return share < model.settings.turndownFlowShare ? REASON_BIT['flow-below-turndown'] : 0;
}

/** A temperature difference in units of its own standard uncertainty; Infinity where the sensors are taken as exact. */
function smallness(difference: number, warmer: number, colder: number): number {
  const own = combined(warmer, colder);
  if (own === 0) return difference > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  return difference / own;
}

/** Root sum of squares; `Math.hypot` guards against overflow at ten times the cost. */
function combined(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}

/** However rough the sensors, duties that differ by more than this share of their mean tell neither [-] (own choice). */
export const GREATEST_IMBALANCE = 0.25;

/**
 * Whether the balance closes: |Qh − Qc|/mean within the larger of the tolerance and the multiple of its uncertainty; rough
 * sensors excuse a quarter of the mean at most.
 *
 * @param balance     (Qh − Qc)/mean [-]
 * @param uncertainty its standard uncertainty [-]
 * @param settings    `balanceTolerance` [-] and `balanceUncertaintyMultiple` [-]
 * @returns the bit of 'balance-not-closed', or 0 [-]
 * @range  any
 * @source METHODS §3; ASME PTC 12.5-2000 (heat balance error against its uncertainty)
 * @check  tests/core/checks/judge-state.test.ts
 */
export function judgeBalance(
  balance: number,
  uncertainty: number,
  settings: { balanceTolerance: number; balanceUncertaintyMultiple: number },
): number {
  const excused = Math.min(GREATEST_IMBALANCE, settings.balanceUncertaintyMultiple * uncertainty);
  const allowed = Math.max(settings.balanceTolerance, excused);
  return Math.abs(balance) <= allowed ? 0 : REASON_BIT['balance-not-closed'];
}
