import type { Fluids } from '../clean/clean-reference';
import type { Exchanger } from '../exchange/exchanger';
import { makeFluid } from '../fluids/make-fluid';
import type { DailyColumns } from '../series/daily-columns';
import { type HeldOutlet, heldOutletOf } from './held-outlet';
import { type PumpedSide, type PumpedSpan, pumpedSides } from './pumped-sides';

/** A unit with everything made once that its losses are worked out from. */
export type LosingUnit = {
  exchanger: Exchanger;
  fluids: Fluids;
  /** null where no flow is set by a valve that holds an outlet. */
  held: HeldOutlet | null;
  pumped: PumpedSide[];
};

/**
 * Prepares a unit for its losses.
 *
 * @param exchanger the unit
 * @param daily     its daily figures
 * @param spans     its cycles: what its cleanings left of the pressure drop [Pa]
 * @returns fluids, held outlet and pumped streams; RangeError for an impossible datasheet
 * @range  as `cleanReference`
 * @source none: preparation only
 * @check  tests/core/cost/daily-losses.test.ts
 */
export function losingUnit(
  exchanger: Exchanger,
  daily: DailyColumns,
  spans: readonly PumpedSpan[],
): LosingUnit {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  return {
    exchanger,
    fluids,
    held: heldOutletOf(exchanger, fluids),
    pumped: pumpedSides(exchanger, { fluids, daily, spans }),
  };
}

/**
 * Duty that counts as lost on each day: none where a control valve holds the outlet, for the duty is then what it should be.
 *
 * @param exchanger the unit
 * @param daily     its daily figures, n rows
 * @returns n values [W]; NaN on days without a figure
 * @range  any
 * @source METHODS §10
 * @check  tests/core/cost/daily-losses.test.ts
 */
export function dutyLost({ losses }: Exchanger, { lostDuty }: DailyColumns): Float64Array {
  return losses.heldOutlet === null ? lostDuty : lostDuty.map((each) => (Number.isNaN(each) ? each : 0));
}
