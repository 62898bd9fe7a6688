import { correctionFactor } from '@/lib/core/exchange/correction';
import { capacityRate } from '@/lib/core/exchange/duty';
import { effectiveness } from '@/lib/core/exchange/effectiveness';
import type { Arrangement } from '@/lib/core/exchange/exchanger';
import { counterCurrentLmtd, logMeanDifference } from '@/lib/core/exchange/lmtd';
import { capacityRatio, outletDuty, smallerSide } from '@/lib/core/exchange/rating';

/** Inputs of a worked example, by the names of the file. */
export type Inputs = Record<string, number>;

export const counter: Arrangement = { kind: 'counter-current' };
export const parallel: Arrangement = { kind: 'co-current' };
export const unmixed: Arrangement = { kind: 'crossflow', mixed: 'none' };
export const hotMixed: Arrangement = { kind: 'crossflow', mixed: 'hot' };
export const shell = (shellPasses: number, tubePasses = 2 * shellPasses): Arrangement => ({
  kind: 'shell-and-tube',
  shellPasses,
  tubePasses,
  tubeSide: 'cold',
});

/** Capacity rates of both streams with the specific heats that the example states. */
export function rates(x: Inputs) {
  const hotCapacityRate = x.hot_capacity_rate_W_K ?? x.hot_flow_kg_s! * x.cp_hot!;
  const coldCapacityRate = x.cold_capacity_rate_W_K ?? x.cold_flow_kg_s! * x.cp_cold!;
  return { hotCapacityRate, coldCapacityRate };
}

/** Rating of a unit of known U and area: what its two inlets make of it. */
export function rated(arrangement: Arrangement, x: Inputs, conductance: number) {
  const { hotCapacityRate, coldCapacityRate } = rates(x);
  const hotIn = x.hot_in_C ?? x.hot_in_K ?? x.hot_in_F!;
  const coldIn = x.cold_in_C ?? x.cold_in_K ?? x.cold_in_F!;
  const Cr = capacityRatio(hotCapacityRate, coldCapacityRate);
  const NTU = conductance / Math.min(hotCapacityRate, coldCapacityRate);
  const duty = outletDuty({ arrangement, hotCapacityRate, coldCapacityRate, conductance, hotIn, coldIn });
  return {
    Cr,
    NTU,
    effectiveness: effectiveness(arrangement, NTU, Cr, smallerSide(hotCapacityRate, coldCapacityRate)),
    duty,
    'hot out': hotIn - duty / hotCapacityRate,
    'cold out': coldIn + duty / coldCapacityRate,
  };
}

/** F and LMTD of four temperatures (any one unit of degree). */
export function meanDifference(
  arrangement: Arrangement,
  hotIn: number,
  hotOut: number,
  coldIn: number,
  coldOut: number,
) {
  const hotRate = capacityRate(1, hotIn - hotOut);
  const coldRate = capacityRate(1, coldOut - coldIn);
  const reached = 1 / Math.min(hotRate, coldRate) / (hotIn - coldIn);
  const side = smallerSide(hotRate, coldRate);
  return {
    lmtd: counterCurrentLmtd({ hotIn, hotOut, coldIn, coldOut }),
    F: correctionFactor(arrangement, reached, capacityRatio(hotRate, coldRate), side),
  };
}

export const inKw = (result: ReturnType<typeof rated>) => ({ ...result, duty: result.duty / 1000 });

export function bothMeanDifferences(x: Inputs): Record<string, number> {
  const [hotIn, hotOut, coldIn, coldOut] = ['hot_in', 'hot_out', 'cold_in', 'cold_out'].map(
    (name) => x[`${name}_F`] ?? x[`${name}_C`]!,
  ) as [number, number, number, number];
  return {
    'LMTD counter': counterCurrentLmtd({ hotIn, hotOut, coldIn, coldOut }),
    'LMTD parallel': logMeanDifference(hotIn - coldIn, hotOut - coldOut),
  };
}
