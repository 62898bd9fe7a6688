import type { Arrangement } from '@/lib/core/exchange/exchanger';
import { conductanceFromDuty } from '@/lib/core/exchange/rating';
import type { Fluid, FluidSpec } from '@/lib/core/fluids/fluid';
import { makeFluid } from '@/lib/core/fluids/make-fluid';

export type Service = {
  arrangement: Arrangement;
  hot: FluidSpec;
  cold: FluidSpec;
  /** [°C]; a condensing stream enters and leaves at its saturation temperature. */
  hotIn: number;
  hotOut: number;
  coldIn: number;
  coldOut: number;
  /** [W] and [W/(m²·K)] */
  duty: number;
  cleanU: number;
};

/** Flows [kg/s] that close the balance of a wanted service, and the area [m²] it needs; NaN area where it cannot be. */
export function balancedDesign(service: Service): { hotFlow: number; coldFlow: number; area: number } {
  const { duty, hotIn, hotOut, coldIn, coldOut, arrangement } = service;
  const hot = makeFluid(service.hot);
  const isCondensing = hot.phaseChange !== null;
  const conductance = conductanceFromDuty({
    arrangement,
    duty,
    hotCapacityRate: isCondensing ? Number.POSITIVE_INFINITY : duty / (hotIn - hotOut),
    coldCapacityRate: duty / (coldOut - coldIn),
    hotIn,
    coldIn,
  });
  return {
    hotFlow: duty / heatPerKilogram(hot, hotIn, hotOut),
    coldFlow: duty / heatPerKilogram(makeFluid(service.cold), coldOut, coldIn),
    area: conductance / service.cleanU,
  };
}

function heatPerKilogram(fluid: Fluid, from: number, to: number): number {
  if (fluid.phaseChange === null) return fluid.enthalpy(from) - fluid.enthalpy(to);
  return fluid.phaseChange.vapourEnthalpy(from) - fluid.enthalpy(to);
}
