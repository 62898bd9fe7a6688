import type { Fluid } from '../fluids/fluid';

/**
 * Temperature at which the hot stream gives off its heat: the saturation temperature of a condensing stream, by its
 * stated pressure, else as read at its inlet; the inlet temperature of any other.
 *
 * @param hot   hot fluid
 * @param hotIn inlet temperature as measured [°C]; NaN where it is not
 * @returns [°C]
 * @range  any; superheat of the vapour is neglected
 * @source METHODS §3
 * @check  tests/core/fouling/condensing.test.ts
 */
export function saturationTemperature(hot: Fluid, hotIn: number): number {
  return hot.condensing?.saturationTemperature ?? hotIn;
}

/**
 * Heat given off per mass of hot stream: h(in) − h(out), or vapour to condensate for a condensing stream.
 *
 * @param hot    hot fluid
 * @param hotIn  inlet or saturation temperature [°C]
 * @param hotOut outlet temperature [°C]; for a condensing stream NaN, or anything above saturation, means saturated
 * @returns [J/kg]; NaN outside the fluid's range
 * @range  the fluid's own
 * @source METHODS §3; Incropera et al., 6th ed. 2007, eq. 11.6 (sensible), §11.3 (condensing)
 * @check  tests/core/fouling/condensing.test.ts
 */
export function enthalpyDrop(hot: Fluid, hotIn: number, hotOut: number): number {
  const { condensing } = hot;
  if (condensing === null) return hot.enthalpy(hotIn) - hot.enthalpy(hotOut);
  const condensate = hotOut < hotIn ? hot.enthalpy(hotOut) : condensing.liquidEnthalpy(hotIn);
  return condensing.vapourEnthalpy(hotIn) - condensate;
}

/**
 * Heat taken up per mass of cold stream: h(out) − h(in).
 *
 * @param cold    cold fluid
 * @param coldIn  [°C]
 * @param coldOut [°C]
 * @returns [J/kg]; NaN outside the fluid's range
 * @range  the fluid's own
 * @source Incropera et al., 6th ed. 2007, eq. 11.7
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function enthalpyRise(cold: Fluid, coldIn: number, coldOut: number): number {
  return cold.enthalpy(coldOut) - cold.enthalpy(coldIn);
}

/** Newton steps on a function this close to straight; six give the last digit. */
const NEWTON_STEPS = 6;

/**
 * Temperature of a single-phase stream after a change of enthalpy: the inverse of h(T).
 *
 * @param fluid  any
 * @param from   temperature before [°C]
 * @param change enthalpy gained [J/kg], negative when cooled
 * @returns [°C]; NaN where it lies outside the fluid's range
 * @range  the fluid's own
 * @source Newton's method on h(T) − h(from) − change with slope cp(T)
 * @check  tests/core/fouling/evaluate-readings.test.ts
 */
export function temperatureAfter(fluid: Fluid, from: number, change: number): number {
  const target = fluid.enthalpy(from) + change;
  let temperature = from + change / fluid.specificHeat(from);
  for (let step = 0; step < NEWTON_STEPS; step++) {
    // The first guess may leave a narrow range although the answer lies inside it.
    const inside = Math.min(Math.max(temperature, fluid.minimum), fluid.maximum);
    const miss = target - fluid.enthalpy(inside);
    temperature = inside + miss / fluid.specificHeat(inside);
  }
  return temperature >= fluid.minimum && temperature <= fluid.maximum ? temperature : Number.NaN;
}
