import type { Side } from '../exchange/exchanger';
import type { Fluid } from '../fluids/fluid';

/**
 * The side whose stream changes phase: condenses on the hot side, evaporates on the cold one.
 *
 * @param fluids properties of the two streams
 * @returns the side, null where both streams are single-phase; RangeError where both change phase
 * @range  any
 * @source Cr = Cmin/Cmax has no meaning where both capacity rates are infinite: Incropera et al., 6th ed. 2007, §11.3.3
 * @check  tests/core/fouling/evaporating.test.ts
 */
export function phaseChangeSide({ hot, cold }: { hot: Fluid; cold: Fluid }): Side | null {
  if (hot.phaseChange !== null && cold.phaseChange !== null)
    throw new RangeError('one stream condenses and the other evaporates: Cr is undefined');
  if (hot.phaseChange !== null) return 'hot';
  return cold.phaseChange === null ? null : 'cold';
}

/**
 * Temperature at the vapour end of a stream: the saturation temperature of one that changes phase, by its stated
 * pressure, else as read there (inlet of a condensing stream, outlet of an evaporating one); as read for any other.
 *
 * @param fluid fluid of the stream
 * @param read  temperature as measured at that end [°C]; NaN where it is not
 * @returns [°C]
 * @range  any; superheat of the vapour is neglected
 * @source METHODS §3
 * @check  tests/core/fouling/condensing.test.ts, tests/core/fouling/evaporating.test.ts
 */
export function saturationTemperature(fluid: Fluid, read: number): number {
  return fluid.phaseChange?.saturationTemperature ?? read;
}

/** Temperatures at the four ends [°C]. */
type EndTemperatures = { hotIn: number; hotOut: number; coldIn: number; coldOut: number };

/**
 * Temperatures that drive the transfer: as they are, but a stream that changes phase is at saturation from end to end.
 *
 * @param fluids       properties of the two streams
 * @param temperatures at the four ends [°C]
 * @returns the same with both ends of the side that changes phase at its saturation temperature [°C]
 * @range  any; subcooling of condensate or feed takes heat, but no part of the mean temperature difference
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, §11.3.3 (special operating conditions)
 * @check  tests/core/fouling/evaporating.test.ts
 */
export function drivingTemperatures(
  { hot, cold }: { hot: Fluid; cold: Fluid },
  { hotIn, hotOut, coldIn, coldOut }: EndTemperatures,
): EndTemperatures {
  const vapourIn = saturationTemperature(hot, hotIn);
  const vapourOut = saturationTemperature(cold, coldOut);
  return {
    hotIn: vapourIn,
    hotOut: hot.phaseChange === null ? hotOut : vapourIn,
    coldIn: cold.phaseChange === null ? coldIn : vapourOut,
    coldOut: vapourOut,
  };
}

/**
 * Capacity rate of a stream over its temperature change: Q/ΔT, without end where it changes phase.
 *
 * @param fluid  fluid of the stream
 * @param duty   [W]
 * @param change temperature change of the stream [K]
 * @returns [W/K]; Infinity for a stream that changes phase
 * @range  any
 * @source Incropera et al., 6th ed. 2007, eq. 11.10 and 11.11; §11.3.3
 * @check  tests/core/fouling/evaporating.test.ts
 */
export function streamCapacityRate(fluid: Fluid, duty: number, change: number): number {
  return fluid.phaseChange === null ? duty / change : Number.POSITIVE_INFINITY;
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
  const { phaseChange } = hot;
  if (phaseChange === null) return hot.enthalpy(hotIn) - hot.enthalpy(hotOut);
  const condensate = hotOut < hotIn ? hot.enthalpy(hotOut) : phaseChange.liquidEnthalpy(hotIn);
  return phaseChange.vapourEnthalpy(hotIn) - condensate;
}

/**
 * Heat taken up per mass of cold stream: h(out) − h(in), or feed to vapour for an evaporating stream.
 *
 * @param cold    cold fluid
 * @param coldIn  inlet temperature [°C]; for an evaporating stream NaN, or anything above saturation, means saturated
 * @param coldOut outlet or saturation temperature [°C]
 * @returns [J/kg]; NaN outside the fluid's range
 * @range  the fluid's own
 * @source METHODS §3; Incropera et al., 6th ed. 2007, eq. 11.7 (sensible), §11.3.3 (evaporating)
 * @check  tests/core/fouling/evaluate-readings.test.ts, tests/core/fouling/evaporating.test.ts
 */
export function enthalpyRise(cold: Fluid, coldIn: number, coldOut: number): number {
  const { phaseChange } = cold;
  if (phaseChange === null) return cold.enthalpy(coldOut) - cold.enthalpy(coldIn);
  const feed = coldIn < coldOut ? cold.enthalpy(coldIn) : phaseChange.liquidEnthalpy(coldOut);
  return phaseChange.vapourEnthalpy(coldOut) - feed;
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
