import { effectiveness } from './effectiveness';
import type { Arrangement, Side } from './exchanger';
import { numberOfTransferUnits } from './transfer-units';

/** A unit at given inlets: capacity rates [W/K] (Infinity on a condensing side) and inlet temperatures [°C]. */
export type UnitAtInlets = {
  arrangement: Arrangement;
  hotCapacityRate: number;
  coldCapacityRate: number;
  hotIn: number;
  coldIn: number;
};

/**
 * The stream of smaller capacity rate; the hot one where they are equal.
 *
 * @param hotCapacityRate  [W/K]
 * @param coldCapacityRate [W/K]
 * @returns 'hot' or 'cold'
 * @range any
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, sec. 11.4.1
 * @check tests/core/exchange/rating.test.ts
 */
export function smallerSide(hotCapacityRate: number, coldCapacityRate: number): Side {
  return hotCapacityRate <= coldCapacityRate ? 'hot' : 'cold';
}

/**
 * Capacity rate ratio Cr = Cmin/Cmax.
 *
 * @param hotCapacityRate  [W/K], ≥ 0, Infinity on a condensing side
 * @param coldCapacityRate [W/K], ≥ 0
 * @returns [-], 0 to 1; NaN if both are infinite, both 0 or one negative
 * @range any
 * @source Incropera et al., 6th ed. 2007, sec. 11.4.1
 * @check tests/core/exchange/rating.test.ts
 */
export function capacityRatio(hotCapacityRate: number, coldCapacityRate: number): number {
  const smaller = Math.min(hotCapacityRate, coldCapacityRate);
  if (!(smaller >= 0 && smaller < Number.POSITIVE_INFINITY)) return Number.NaN;
  return smaller / Math.max(hotCapacityRate, coldCapacityRate);
}

/**
 * Duty that a unit of known conductance transfers at given inlets: Q = ε(UA/Cmin, Cr)·Cmin·(Thi − Tci).
 *
 * @param unit conductance UA [W/K], ≥ 0; capacity rates [W/K]; inlet temperatures [°C]; RangeError if the arrangement is not supported
 * @returns [W], negative where the cold stream enters hotter; NaN for rates that `capacityRatio` refuses
 * @range any
 * @source Incropera et al., 6th ed. 2007, eqs. 11.18 and 11.22
 * @check tests/published/worked-examples.test.ts
 */
export function outletDuty(unit: UnitAtInlets & { conductance: number }): number {
  const { arrangement, hotCapacityRate, coldCapacityRate, conductance, hotIn, coldIn } = unit;
  const ratio = capacityRatio(hotCapacityRate, coldCapacityRate);
  const smallest = Math.min(hotCapacityRate, coldCapacityRate);
  // A stream at rest transfers nothing in steady state; its NTU would be infinite.
  if (smallest === 0 && ratio === 0) return 0;
  const side = smallerSide(hotCapacityRate, coldCapacityRate);
  return effectiveness(arrangement, conductance / smallest, ratio, side) * smallest * (hotIn - coldIn);
}

/**
 * Conductance UA of a unit from its duty at given inlets, by effectiveness and NTU: the inverse of `outletDuty`.
 *
 * @param unit duty [W]; capacity rates [W/K]; inlet temperatures [°C]; RangeError if the arrangement is not supported
 * @returns UA [W/K]; NaN where the duty is more than the arrangement allows, less than 0, or the inlets are equal
 * @range any
 * @source Incropera et al., 6th ed. 2007, eqs. 11.18 to 11.25
 * @check tests/published/worked-examples.test.ts
 */
export function conductanceFromDuty(unit: UnitAtInlets & { duty: number }): number {
  const { arrangement, hotCapacityRate, coldCapacityRate, duty, hotIn, coldIn } = unit;
  const ratio = capacityRatio(hotCapacityRate, coldCapacityRate);
  const smallest = Math.min(hotCapacityRate, coldCapacityRate);
  const reached = duty / (smallest * (hotIn - coldIn));
  const side = smallerSide(hotCapacityRate, coldCapacityRate);
  return numberOfTransferUnits(arrangement, reached, ratio, side) * smallest;
}

/**
 * Conductance UA from duty, logarithmic mean difference and correction: Q = UA·F·LMTD, the route a person follows by hand.
 *
 * @param duty           [W]
 * @param meanDifference LMTD of counter-current flow [K]
 * @param correction     F [-], 1 unless given
 * @returns UA [W/K]; NaN if the mean difference or the correction is not > 0
 * @range any
 * @source Incropera et al., 6th ed. 2007, eq. 11.14
 * @check tests/published/worked-examples.test.ts
 */
export function conductanceFromMeanDifference(duty: number, meanDifference: number, correction = 1): number {
  if (!(meanDifference > 0 && correction > 0)) return Number.NaN;
  return duty / (meanDifference * correction);
}
