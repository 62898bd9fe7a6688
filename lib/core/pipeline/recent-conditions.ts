import type { Fluids } from '../clean/clean-reference';
import type { Fluid } from '../fluids/fluid';
import { drivingTemperatures } from '../fouling/enthalpy-change';
import type { DailyColumns } from '../series/daily-columns';
import { median } from '../stats/quantile';

/** Figures that make up "recent conditions" [days with a figure]: two weeks even out the load of a working week. */
export const RECENT_FIGURES = 14;

/** Medians of the last figures: what a limit is judged at. */
export type RecentConditions = {
  /** Inlets [°C]; the saturation temperature on a side that changes phase. */
  hotIn: number;
  coldIn: number;
  /** Duty over temperature change [W/K]; Infinity on a side that changes phase. */
  hotCapacityRate: number;
  coldCapacityRate: number;
  /** [W/(m²·K)] */
  cleanU: number;
};

/**
 * Recent conditions of a unit from its last daily figures.
 *
 * @param daily  daily figures
 * @param fluids properties of the two streams
 * @returns medians over the last 14 days with a figure; null without any
 * @range  any; a value never measured is NaN
 * @source METHODS §9; common practice
 * @check  tests/core/pipeline/limit-fouling.test.ts
 */
export function recentConditions(daily: DailyColumns, fluids: Fluids): RecentConditions | null {
  const rows: number[] = [];
  for (let row = daily.day.length - 1; row >= 0 && rows.length < RECENT_FIGURES; row--) {
    if (!Number.isNaN(daily.foulingResistance[row]!)) rows.push(row);
  }
  if (rows.length === 0) return null;
  const typical = (figure: (row: number) => number) =>
    median(rows.map(figure).filter((value) => !Number.isNaN(value)));
  const { hotIn, coldIn } = drivingTemperatures(fluids, {
    hotIn: typical((row) => daily.hotIn[row]!),
    hotOut: typical((row) => daily.hotOut[row]!),
    coldIn: typical((row) => daily.coldIn[row]!),
    coldOut: typical((row) => daily.coldOut[row]!),
  });
  const rate = (fluid: Fluid, change: (row: number) => number) =>
    // Not a median of infinities: between two of them it has no value.
    fluid.phaseChange === null ? typical((row) => daily.duty[row]! / change(row)) : Number.POSITIVE_INFINITY;
  return {
    hotIn,
    coldIn,
    hotCapacityRate: rate(fluids.hot, (row) => daily.hotIn[row]! - daily.hotOut[row]!),
    coldCapacityRate: rate(fluids.cold, (row) => daily.coldOut[row]! - daily.coldIn[row]!),
    cleanU: typical((row) => daily.cleanU[row]!),
  };
}
