import type { Fluids } from '../clean/clean-reference';
import type { Fluid } from '../fluids/fluid';
import { drivingTemperatures } from '../fouling/enthalpy-change';
import type { DailyColumns } from '../series/daily-columns';

/** What a unit was given on a day, and what it made of it. */
export type DayConditions = {
  /** Inlets [°C]; the saturation temperature on a side that changes phase. */
  hotIn: number;
  coldIn: number;
  /** [W/K]; Infinity on a side that changes phase. */
  hotCapacityRate: number;
  coldCapacityRate: number;
  /** [kg/s] */
  hotMassFlow: number;
  coldMassFlow: number;
  /** [W] */
  duty: number;
  /** [W/(m²·K)] */
  cleanU: number;
};

/**
 * Conditions of a day from its figures; capacity rates from the duty over the temperature changes, or where an outlet is not
 * measured from flow and specific heat.
 *
 * @param fluids properties of the two streams
 * @param daily  daily figures
 * @param row    row of the day
 * @returns inlets [°C], capacity rates [W/K], flows [kg/s], duty [W] and clean conductance [W/(m²·K)]; NaN where not known
 * @range  any
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eq. 11.6 and 11.7
 * @check  tests/core/pipeline/won-duty.test.ts
 */
export function dayConditions(fluids: Fluids, daily: DailyColumns, row: number): DayConditions {
  const { hotIn, hotOut, coldIn, coldOut } = drivingTemperatures(fluids, {
    hotIn: daily.hotIn[row]!,
    hotOut: daily.hotOut[row]!,
    coldIn: daily.coldIn[row]!,
    coldOut: daily.coldOut[row]!,
  });
  const duty = daily.duty[row]!;
  const hotMassFlow = daily.hotMassFlow[row]!;
  const coldMassFlow = daily.coldMassFlow[row]!;
  const hot = { duty, change: hotIn - hotOut, flow: hotMassFlow, at: hotIn };
  const cold = { duty, change: coldOut - coldIn, flow: coldMassFlow, at: coldIn };
  return {
    hotIn,
    coldIn,
    hotCapacityRate: rateOf(fluids.hot, hot),
    coldCapacityRate: rateOf(fluids.cold, cold),
    hotMassFlow,
    coldMassFlow,
    duty,
    cleanU: daily.cleanU[row]!,
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

/**
 * Arithmetic mean of a stream's inlet and outlet on a day, the outlet from duty and capacity rate.
 *
 * @param conditions of the day
 * @param side       the stream
 * @param flowRatio  its flow over that of the day [-], > 0, the duty staying the same
 * @returns [°C]; the inlet of a stream that changes phase
 * @range  any
 * @source ΔT = Q/(ṁ·cp)
 * @check  tests/core/cost/held-outlet.test.ts
 */
export function meanTemperature(conditions: DayConditions, side: 'hot' | 'cold', flowRatio = 1): number {
  const { hotIn, coldIn, hotCapacityRate, coldCapacityRate, duty } = conditions;
  if (side === 'hot') return hotIn - duty / (2 * flowRatio * hotCapacityRate);
  return coldIn + duty / (2 * flowRatio * coldCapacityRate);
}
