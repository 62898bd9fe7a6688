import { dayConditions } from '../cost/day-conditions';
import type { WonDuty } from '../cycles/energy-saved';
import type { Exchanger } from '../exchange/exchanger';
import { outletDuty } from '../exchange/rating';
import { makeFluid } from '../fluids/make-fluid';
import type { DailyColumns } from '../series/daily-columns';

/**
 * Duty of a day less what the unit would have transferred at the same inlets and flows with another fouling.
 *
 * @param exchanger the unit
 * @param daily     its daily figures
 * @returns function of a row and a fouling resistance [m²·K/W], giving [W]: 0 where a control valve holds the outlet, for the
 *   duty is then what it should be at any fouling; NaN where an inlet or a flow is not known
 * @range  any
 * @source METHODS §10 (ε-NTU at the day's inlets and flows); capacity rates from the day's duty over its temperature changes
 * @check  tests/core/pipeline/won-duty.test.ts
 */
export function wonDutyOf(exchanger: Exchanger, daily: DailyColumns): WonDuty {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const { arrangement, area } = exchanger;
  const isHeld = exchanger.losses.heldOutlet !== null;
  return (row, foulingResistance) => {
    const conditions = { arrangement, ...dayConditions(fluids, daily, row) };
    const conductanceAt = (resistance: number) => area / (1 / daily.cleanU[row]! + resistance);
    // Both by the same formula, so that what the medians of a day leave open cancels.
    const [asItIs, asFouled] = [daily.foulingResistance[row]!, foulingResistance].map((resistance) =>
      outletDuty({ ...conditions, conductance: conductanceAt(resistance) }),
    );
    const won = asItIs! - asFouled!;
    return isHeld && !Number.isNaN(won) ? 0 : won;
  };
}
