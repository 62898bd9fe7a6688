/**
 * Energy bought to make up for heat a dirty unit did not transfer: lost heat over the efficiency (or the coefficient of
 * performance of cooling) of what supplies it.
 *
 * @param lostHeat   heat not transferred [J] (or lost duty [W], then the result is a power)
 * @param efficiency of the boiler, or COP of the chiller [-], > 0
 * @returns [J] or [W]; RangeError if the efficiency is not > 0
 * @source definition of efficiency and of the coefficient of performance
 * @check tests/core/cost/purchased-energy.test.ts
 */
export function purchasedEnergy(lostHeat: number, efficiency: number): number {
  if (!(efficiency > 0)) throw new RangeError(`efficiency must be greater than 0, not ${efficiency}`);
  return lostHeat / efficiency;
}
