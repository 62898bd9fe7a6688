import type { Exchanger } from '../exchange/exchanger';
import { makeFluid } from '../fluids/make-fluid';
import type { DailyColumns } from '../series/daily-columns';
import { limitFouling } from './limit-fouling';
import { recentConditions } from './recent-conditions';

/**
 * Fouling resistance at which the first thermal limit is reached under recent conditions: the scale by which a fall, or a
 * past projection, is judged.
 *
 * @param exchanger the unit
 * @param daily     daily figures up to today
 * @returns least of the limits [m²·K/W]; null where no fouling leads to any
 * @range  any
 * @source METHODS §9
 * @check  tests/core/pipeline/trend-unit.test.ts
 */
export function allowanceOf(exchanger: Exchanger, daily: DailyColumns): number | null {
  const fluids = { hot: makeFluid(exchanger.hot), cold: makeFluid(exchanger.cold) };
  const recent = recentConditions(daily, fluids);
  if (recent === null) return null;
  const each = exchanger.limits
    .map((limit) => limitFouling(exchanger, limit, recent))
    .filter((value) => value !== null && value > 0);
  return each.length === 0 ? null : Math.min(...(each as number[]));
}
