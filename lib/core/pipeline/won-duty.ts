import { dayConditions } from '../cost/day-conditions';
import type { WonDuty } from '../cycles/energy-saved';
import type { Exchanger } from '../exchange/exchanger';
import { outletDuty, type UnitAtInlets } from '../exchange/rating';
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
  /** What the day last asked about was given, and the duty by its own fouling. */
  let asked: { row: number; unit: UnitAtInlets; asItIs: number } | null = null;
  // Both by the same formula, so that what the medians of a day leave open cancels.
  const dutyAt = (unit: UnitAtInlets, row: number, resistance: number) =>
    outletDuty({ ...unit, conductance: area / (1 / daily.cleanU[row]! + resistance) });
  const ask = (row: number) => {
    const { hotIn, coldIn, hotCapacityRate, coldCapacityRate } = dayConditions(fluids, daily, row);
    const unit = { arrangement, hotIn, coldIn, hotCapacityRate, coldCapacityRate };
    return { row, unit, asItIs: dutyAt(unit, row, daily.foulingResistance[row]!) };
  };
  return (row, foulingResistance) => {
    if (asked?.row !== row) asked = ask(row);
    const won = asked.asItIs - dutyAt(asked.unit, row, foulingResistance);
    return isHeld && !Number.isNaN(won) ? 0 : won;
  };
}
