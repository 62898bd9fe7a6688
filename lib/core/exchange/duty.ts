/**
 * Duty of a stream without phase change from mass flow and enthalpy change: Q = ṁ·Δh. With hg − hf (plus subcooling) as the
 * change it is the duty of a condensing stream.
 *
 * @param massFlow       [kg/s]
 * @param enthalpyChange what each kilogram gives off or takes up [J/kg]
 * @returns [W], of the sign of the change
 * @range any
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eqs. 11.6a and 11.7a
 * @check tests/published/worked-examples.test.ts
 */
export function streamDuty(massFlow: number, enthalpyChange: number): number {
  return massFlow * enthalpyChange;
}

/**
 * Balance error of a unit: (Qh − Qc) over the mean of both.
 *
 * @param hotDuty  what the hot stream gives off [W]
 * @param coldDuty what the cold stream takes up [W]
 * @returns [-], 0 when both are 0; NaN when the mean is 0 otherwise
 * @range any
 * @source METHODS: balance error; ASME PTC 12.5-2000, heat balance error
 * @check tests/core/exchange/duty.test.ts
 */
export function balanceError(hotDuty: number, coldDuty: number): number {
  if (hotDuty === 0 && coldDuty === 0) return 0;
  const mean = (hotDuty + coldDuty) / 2;
  return mean === 0 ? Number.NaN : (hotDuty - coldDuty) / mean;
}

/**
 * Inverse-variance weighted mean of the two duties; its standard uncertainty is 1/√(1/uh² + 1/uc²).
 *
 * @param hotDuty  [W]
 * @param coldDuty [W]
 * @param standardUncertainty of each [W], > 0
 * @returns [W]; NaN if either uncertainty is not > 0
 * @range any
 * @source ASME PTC 12.5-2000, weighted average heat duty
 * @check tests/core/exchange/duty.test.ts
 */
export function weightedDuty(
  hotDuty: number,
  coldDuty: number,
  standardUncertainty: { hot: number; cold: number },
): number {
  const { hot, cold } = standardUncertainty;
  if (!(hot > 0 && cold > 0)) return Number.NaN;
  const ratio = cold / hot;
  return coldDuty + ((hotDuty - coldDuty) * ratio * ratio) / (1 + ratio * ratio);
}

/**
 * Mean capacity rate of a stream over its temperature change: C = Q/ΔT.
 *
 * @param duty              [W]
 * @param temperatureChange of the stream, of the duty's sign [K]
 * @returns [W/K]; NaN without a change (a stream that condenses at one temperature has C = Infinity: say so outright)
 * @range any
 * @source Incropera et al., 6th ed. 2007, eqs. 11.10 and 11.11
 * @check tests/core/exchange/duty.test.ts
 */
export function capacityRate(duty: number, temperatureChange: number): number {
  return temperatureChange === 0 ? Number.NaN : duty / temperatureChange;
}
