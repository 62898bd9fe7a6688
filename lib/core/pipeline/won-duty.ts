import type { WonDuty } from '../cycles/energy-saved';
import type { Exchanger } from '../exchange/exchanger';
import { outletDuty } from '../exchange/rating';
import type { Fluid } from '../fluids/fluid';
import { makeFluid } from '../fluids/make-fluid';
import { drivingTemperatures } from '../fouling/enthalpy-change';
import type { DailyColumns } from '../series/daily-columns';

/**
 * Duty of a day less what the unit would have transferred at the same inlets and flows with another fouling.
 *
 * @param exchanger the unit
 * @param daily     its daily figures
 * @returns function of a row and a fouling resistance [m²·K/W], giving [W]; NaN where an inlet or a flow is not known
 * @range  any
 * @source METHODS §10 (ε-NTU at the day's inlets and flows); capacity rates from the day's duty over its temperature changes
 * @check  tests/core/pipeline/won-duty.test.ts
 */
export function wonDutyOf(exchanger: Exchanger, daily: DailyColumns): WonDuty {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const { arrangement, area } = exchanger;
  return (row, foulingResistance) => {
    const { hotIn, hotOut, coldIn, coldOut } = drivingTemperatures(fluids, {
      hotIn: daily.hotIn[row]!,
      hotOut: daily.hotOut[row]!,
      coldIn: daily.coldIn[row]!,
      coldOut: daily.coldOut[row]!,
    });
    const duty = daily.duty[row]!;
    const conditions = {
      arrangement,
      hotIn,
      coldIn,
      hotCapacityRate: rateOf(fluids.hot, {
        duty,
        change: hotIn - hotOut,
        flow: daily.hotMassFlow[row]!,
        at: hotIn,
      }),
      coldCapacityRate: rateOf(fluids.cold, {
        duty,
        change: coldOut - coldIn,
        flow: daily.coldMassFlow[row]!,
        at: coldIn,
      }),
    };
    const conductanceAt = (resistance: number) => area / (1 / daily.cleanU[row]! + resistance);
    // Both by the same formula, so that what the medians of a day leave open cancels.
    const [asItIs, asFouled] = [daily.foulingResistance[row]!, foulingResistance].map((resistance) =>
      outletDuty({ ...conditions, conductance: conductanceAt(resistance) }),
    );
    return asItIs! - asFouled!;
  };
}

/** Capacity rate by what is measured: duty over the temperature change, else flow times specific heat. */
function rateOf(
  fluid: Fluid,
  { duty, change, flow, at }: { duty: number; change: number; flow: number; at: number },
): number {
  if (fluid.phaseChange !== null) return Number.POSITIVE_INFINITY;
  if (Number.isNaN(change)) return Number.isNaN(at) ? Number.NaN : flow * fluid.specificHeat(at);
  return duty / change;
}
