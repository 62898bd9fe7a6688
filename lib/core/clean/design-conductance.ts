import type { Exchanger } from '../exchange/exchanger';
import { conductanceFromDuty } from '../exchange/rating';
import {
  drivingTemperatures,
  enthalpyDrop,
  enthalpyRise,
  streamCapacityRate,
} from '../fouling/enthalpy-change';
import type { Fluids } from './clean-reference';

/**
 * Conductance that the design temperatures and flows imply: mean of both sides' duty, capacity rates Q/ΔT,
 * effectiveness, NTU of the arrangement, U = NTU·Cmin/A.
 *
 * @param exchanger its design point [°C, kg/s], arrangement and area [m²]
 * @param fluids    properties of its streams
 * @returns [W/(m²·K)]; NaN where no conductance can give these temperatures in this arrangement
 * @range  hot inlet above cold inlet; Cr = 0 where one stream changes phase
 * @source Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed. 2007, eq. 11.18 to 11.25
 * @check  tests/core/clean/clean-conductance.test.ts
 */
export function designConductance(exchanger: Exchanger, fluids: Fluids): number {
  const { design, arrangement, area } = exchanger;
  const { hotIn, hotOut, coldIn, coldOut } = drivingTemperatures(fluids, design);
  const hotDuty = design.hotFlow * enthalpyDrop(fluids.hot, hotIn, design.hotOut);
  const coldDuty = design.coldFlow * enthalpyRise(fluids.cold, design.coldIn, coldOut);
  const duty = (hotDuty + coldDuty) / 2;
  const hotCapacityRate = streamCapacityRate(fluids.hot, duty, hotIn - hotOut);
  const coldCapacityRate = streamCapacityRate(fluids.cold, duty, coldOut - coldIn);
  const inlets = { hotIn, coldIn };
  return conductanceFromDuty({ arrangement, hotCapacityRate, coldCapacityRate, duty, ...inlets }) / area;
}
