import { counterCurrentEffectiveness, counterCurrentTransferUnits } from './pure-flow';

/**
 * Effectiveness of n shells in series (overall counter-current), each with an even number of tube passes, by the formula of
 * one shell and two tube passes. It is exact for two tube passes a shell; for four, six, … it is the usual approximation and reads
 * high: for four passes by less than 0.004 in effectiveness up to NTU 2, but by up to 0.037 at NTU 10.
 *
 * @param ntu           UA/Cmin of all shells together [-], ≥ 0
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @param shells        shell passes in series [-], ≥ 1
 * @returns effectiveness [-]
 * @range ntu 0 to Infinity
 * @source Incropera et al., 6th ed. 2007, Table 11.3, eqs. 11.30a and 11.31a; Bowman, Mueller & Nagle, Trans. ASME 62 (1940) 283
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function shellEffectiveness(ntu: number, capacityRatio: number, shells: number): number {
  const root = Math.sqrt(1 + capacityRatio * capacityRatio);
  // coth(x/2) = (2 − E)/E with E = 1 − exp(−x): finite at 0 and exact for large x.
  const decay = -Math.expm1((-ntu / shells) * root);
  return inSeries((2 * decay) / ((1 + capacityRatio) * decay + root * (2 - decay)), capacityRatio, shells);
}

/**
 * Limit of `shellEffectiveness` for infinite NTU.
 *
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @param shells        shell passes in series [-], ≥ 1
 * @returns effectiveness [-]
 * @range any
 * @source limit of Incropera et al., 6th ed. 2007, Table 11.3, eqs. 11.30a and 11.31a
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function shellMaximum(capacityRatio: number, shells: number): number {
  const root = Math.sqrt(1 + capacityRatio * capacityRatio);
  return inSeries(2 / (1 + capacityRatio + root), capacityRatio, shells);
}

/**
 * Number of transfer units of n shells in series: the inverse of `shellEffectiveness`.
 *
 * @param effectiveness [-], 0 to below `shellMaximum`
 * @param capacityRatio Cmin/Cmax [-], 0 to 1
 * @param shells        shell passes in series [-], ≥ 1
 * @returns NTU of all shells together [-]; Infinity or NaN from the limit on
 * @range any
 * @source Incropera et al., 6th ed. 2007, Table 11.4, eqs. 11.30b, c and 11.31b, c, d
 * @check tests/published/exchanger-arrangements.test.ts
 */
export function shellTransferUnits(effectiveness: number, capacityRatio: number, shells: number): number {
  const one = counterCurrentEffectiveness(
    counterCurrentTransferUnits(effectiveness, capacityRatio) / shells,
    capacityRatio,
  );
  const root = Math.sqrt(1 + capacityRatio * capacityRatio);
  return (shells * Math.log1p((2 * root * one) / (2 - one * (1 + capacityRatio + root)))) / root;
}

/**
 * Equal units in series, overall counter-current, act as one counter-current unit with the sum of their counter-current NTU:
 * the same as ((1−ε₁Cr)/(1−ε₁))ⁿ of eq. 11.31a, but exact at and near Cr = 1.
 */
function inSeries(one: number, capacityRatio: number, shells: number): number {
  if (shells === 1) return one;
  return counterCurrentEffectiveness(shells * counterCurrentTransferUnits(one, capacityRatio), capacityRatio);
}
