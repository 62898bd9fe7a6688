import { cleanConductance } from '../clean/clean-conductance';
import { type CleanReference, cleanReference, type Fluids } from '../clean/clean-reference';
import type { Exchanger, Side } from '../exchange/exchanger';
import { outletDuty } from '../exchange/rating';
import { findRoot } from '../fit/brent';
import type { Fluid } from '../fluids/fluid';
import { type DayConditions, meanTemperature } from './day-conditions';

/** Flow looked for at most, over that of the day [-]: beyond it a valve or pump has long ended (own choice). */
export const HIGHEST_FLOW_RATIO = 4;

/** A unit of which a control valve holds one outlet by the flow of the other stream. */
export type HeldOutlet = {
  exchanger: Exchanger;
  fluids: Fluids;
  reference: CleanReference;
  /** The stream whose flow the valve sets. */
  set: Side;
};

/**
 * The unit as one whose outlet is held.
 *
 * @param exchanger the unit
 * @param fluids    properties of its streams
 * @returns what the flow is worked out from; null where no outlet is held, or where the stream that the valve sets changes phase:
 *   the flow of steam follows the duty, and fouling takes pressure of it, not flow
 * @range  any [-]
 * @source METHODS §10
 * @check  tests/core/cost/held-outlet.test.ts
 */
export function heldOutletOf(exchanger: Exchanger, fluids: Fluids): HeldOutlet | null {
  const { heldOutlet } = exchanger.losses;
  if (heldOutlet === null) return null;
  const set = heldOutlet === 'hot' ? 'cold' : 'hot';
  if (fluids[set].phaseChange !== null) return null;
  return { exchanger, fluids, reference: cleanReference(exchanger, fluids), set };
}

/**
 * Duty at the day's inlets with another flow of the stream that the valve sets, and another fouling. The clean conductance
 * moves with that flow and with the mean temperature it leads to; what was learned of it is spread over both films and the
 * wall alike.
 *
 * @param held       the unit
 * @param conditions of the day
 * @param at         flow over that of the day [-], > 0; fouling resistance [m²·K/W]
 * @returns [W]; NaN where a property is not known there
 * @range  flows near the reference regime, as `filmResistance`
 * @source METHODS §5 and §10; Incropera et al., 6th ed. 2007, eqs. 11.18 and 11.22
 * @check  tests/core/cost/held-outlet.test.ts
 */
export function dutyAtFlow(
  held: HeldOutlet,
  conditions: DayConditions,
  at: { flowRatio: number; fouling: number },
): number {
  const { exchanger, set } = held;
  const { hotCapacityRate, coldCapacityRate, hotIn, coldIn, cleanU } = conditions;
  const resistance = moved(held, conditions, at.flowRatio) / moved(held, conditions, 1) / cleanU + at.fouling;
  return outletDuty({
    arrangement: exchanger.arrangement,
    hotIn,
    coldIn,
    hotCapacityRate: hotCapacityRate * (set === 'hot' ? at.flowRatio : 1),
    coldCapacityRate: coldCapacityRate * (set === 'cold' ? at.flowRatio : 1),
    conductance: exchanger.area / resistance,
  });
}

/** Clean resistance of the datasheet with another flow of the stream that the valve sets [m²·K/W]. */
function moved({ fluids, reference, set }: HeldOutlet, conditions: DayConditions, flowRatio: number): number {
  const ratios = { hot: 1, cold: 1, [set]: flowRatio };
  const mean = (side: Side) => within(fluids[side], meanTemperature(conditions, side, ratios[side]));
  const { hotMassFlow, coldMassFlow } = conditions;
  const [hotFlow, coldFlow] = [hotMassFlow * ratios.hot, coldMassFlow * ratios.cold];
  return 1 / cleanConductance(reference, hotFlow, coldFlow, mean('hot'), mean('cold'));
}

/** The search passes through temperatures that the fluid does not reach; what it finds is looked at again. */
function within({ minimum, maximum }: Fluid, temperature: number): number {
  return Math.min(Math.max(temperature, minimum), maximum);
}

/**
 * Flow of the stream that the valve sets, over that of the day, at which the unit with another fouling would give the day's
 * duty: the flow of the clean unit with a fouling of 0.
 *
 * @param held       the unit
 * @param conditions of the day
 * @param fouling    [m²·K/W]
 * @returns [-], above 1 for more fouling than the day's; NaN where no flow up to 4 times as large gives the duty, or where the
 *   stream would leave its fluid's range (a flow so small that it boils)
 * @range  duty above 0
 * @source METHODS §10; root by Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4; least flow: Q = C·(Thi − Tci)
 * @check  tests/core/cost/held-outlet.test.ts
 */
export function flowRatioFor(held: HeldOutlet, conditions: DayConditions, fouling: number): number {
  const { duty, hotIn, coldIn } = conditions;
  const rate = conditions[`${held.set}CapacityRate`];
  const excess = (flowRatio: number) => dutyAtFlow(held, conditions, { flowRatio, fouling }) - duty;
  // Below this flow not even an endless area gives the duty.
  const least = duty / (rate * (hotIn - coldIn));
  if (!(least > 0)) return Number.NaN;
  const highest = excess(1) >= 0 ? 1 : HIGHEST_FLOW_RATIO;
  const flowRatio = findRoot(excess, least, highest);
  const { minimum, maximum } = held.fluids[held.set];
  const sign = held.set === 'hot' ? -1 : 1;
  const outlet = conditions[`${held.set}In`] + (sign * duty) / (rate * flowRatio);
  return outlet >= minimum && outlet <= maximum ? flowRatio : Number.NaN;
}
